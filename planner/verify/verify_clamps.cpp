#include "planner/verify/verify_clamps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <span>

#include "geometry/crossing.h"
#include "geometry/elementary.h"
#include "planner/tables/clamp.h"
#include "planner/tables/glue.h"
#include "planner/tables/pressure_range.h"
#include "planner/tables/wood.h"
#include "planner/work/joint_fit.h"
#include "planner/work/touching.h"

namespace planner::verify {
namespace {

// A clamp that gives a line less than this share of its force, round a corner, is not told to press
// it (clamp_press.h).
constexpr double kUntold = 0.02;

std::string clamp_text(const plan::PlannedClamp& clamp) {
  return "clamp " + std::to_string(clamp.n);
}

// The line of action must pass through wood all the way: a hollow carries no force.
void verify_line_of_action(VerifyContext& c, const plan::PlannedClamp& clamp,
                           const plan::Stage& stage, const std::vector<geometry::Solid>& work) {
  const auto path = crossings(work, clamp.at, clamp.axis);
  if (path.empty()) {
    c.require(false, clamp_text(clamp) + " presses on air");
    return;
  }
  const double most_gap = std::max(c.plan.glue.glue.max_gap_mm, work::kDrawnPlay_mm) + 0.05;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const work::PartId a = stage.parts[path[i - 1].solid], b = stage.parts[path[i].solid];
    const bool joined =
        std::any_of(c.joints.begin(), c.joints.end(), [&](const work::Joint& joint) {
          return joint.parts == std::array<work::PartId, 2>{std::min(a, b), std::max(a, b)};
        });
    // A mortise is deeper than its tenon by up to 1/8 in; the shoulders carry the force there.
    constexpr double kMortiseRoom_mm = 3.2;
    c.require(path[i].enter_mm - path[i - 1].leave_mm <=
                  (joined ? std::max(most_gap, kMortiseRoom_mm) : most_gap),
              clamp_text(clamp) + " presses across a hollow");
  }
  const double span = path.back().leave_mm - path.front().enter_mm;
  c.require(std::abs(span - clamp.span_mm) < 0.01,
            clamp_text(clamp) + " spans " + shown(span) + " mm, not " + shown(clamp.span_mm));
  c.require(std::abs(dot(clamp.at, clamp.axis) - path.front().enter_mm) < 0.01,
            clamp_text(clamp) + " does not start at the face of the work");
}

// Heights of the work's two sides along the clamp's axis, so far beside its line of action.
std::optional<std::array<double, 2>> sides_at(const std::vector<geometry::Solid>& work,
                                              const plan::PlannedClamp& clamp,
                                              const geometry::Direction& beside) {
  const auto path = crossings(work, clamp.at + beside, clamp.axis);
  return path.empty() ? std::nullopt
                      : std::optional(std::array{path.front().enter_mm, path.back().leave_mm});
}

constexpr double kSlides = 0.3;  // dry wood on wood, low end of GTR-190 p. 4-17

// Under each jaw the face is square to the clamp, or what lies on it is shaped to the slope.
void verify_shape(VerifyContext& c, const plan::PlannedClamp& clamp,
                  const std::vector<geometry::Solid>& work) {
  constexpr double kOff_mm = 0.8, kOneDegree = 0.0175;  // no pad is narrower
  const geometry::Direction across = cross(clamp.axis, clamp.pad_along);
  std::array<double, 2> steep{0, 0};
  for (const geometry::Direction& d : {clamp.pad_along, across}) {
    const auto here = sides_at(work, clamp, kOff_mm * d),
               there = sides_at(work, clamp, -kOff_mm * d);
    for (const std::size_t end : {0U, 1U}) {
      const double slope = here && there ? ((*here)[end] - (*there)[end]) / (2 * kOff_mm) : 0;
      // What is steeper is the wood's edge, or a hole beside the line of action.
      steep[end] = geometry::hypotenuse(steep[end], std::abs(slope) < 2 * kSlides ? slope : 0);
    }
  }
  for (const std::size_t end : {0U, 1U}) {
    const double shaped = geometry::tangent(clamp.wedge[end].angle_deg * std::numbers::pi / 180);
    c.require(std::abs(steep[end] - shaped) < kOneDegree,
              clamp_text(clamp) + " bears on a face that slopes by " + shown(steep[end]) +
                  ", on a pad shaped to " + shown(shaped));
  }
}

// Where a plane across `axis` meets a solid: that lies in each of its cells between corners on either hand.
std::vector<geometry::Point> section(const geometry::Solid& solid, const geometry::Direction& axis, double at_mm) {
  std::vector<geometry::Point> points;
  for (const auto& cell : cell_points(solid)) {
    for (const geometry::Point& a : cell) {
      for (const geometry::Point& b : cell) {
        const double low = dot(a, axis), high = dot(b, axis);
        if (low <= at_mm && high > at_mm) {
          points.push_back(a + ((at_mm - low) / (high - low)) * (b - a));
        }
      }
    }
  }
  return points;
}

// A strap lies taut on the outside of the work: all of that is on one hand of each of its sides.
void verify_strap(VerifyContext& c, const plan::PlannedClamp& clamp,
                  const std::vector<geometry::Solid>& work) {
  double girth = 0;
  for (std::size_t i = 0; i < clamp.round.size(); ++i) {
    const geometry::Point& from = clamp.round[i];
    const geometry::Point& to = clamp.round[(i + 1) % clamp.round.size()];
    const geometry::Direction out = cross(to - from, clamp.axis);
    const double side = length(to - from);
    girth += side;
    c.require(std::abs(dot(to - from, clamp.axis)) < 0.01, clamp_text(clamp) + " isn't level");
    for (const geometry::Solid& solid : work) {
      for (const geometry::Point& p : section(solid, clamp.axis, dot(clamp.at, clamp.axis))) {
        c.require(dot(p - from, out) < 0.2 * side, clamp_text(clamp) + " cuts into the work");
      }
    }
  }
  c.require(clamp.round.size() >= 3 && std::abs(girth - clamp.span_mm) < 0.01,
            clamp_text(clamp) + " goes " + shown(girth) + " mm round, not " + shown(clamp.span_mm));
}

void verify_opening(VerifyContext& c, const plan::PlannedClamp& clamp) {
  double pads = 0;
  for (const plan::Wedge& wedge : clamp.wedge) {
    pads += !clamp.round.empty() ? 0
            : clamp.caul         ? std::max(clamp.caul->thick_mm, wedge.thin_mm)
                         : std::max(clamp.pad.thick_mm, (wedge.thin_mm + wedge.thick_mm) / 2);
  }
  // On a form the low jaw grips that; platens lie under both.
  pads += clamp.form_mm > 0 ? clamp.form_mm - (clamp.caul ? clamp.caul->thick_mm : 0) : 2 * clamp.platen_mm;
  c.require(clamp.opening_mm >= clamp.span_mm + pads - 0.01,
            clamp_text(clamp) + " is pre-set too narrow for the work and its pads");
  if (!clamp.owned) {
    return;
  }
  if (*clamp.owned >= c.shop.clamps.size()) {
    c.require(false, clamp_text(clamp) + " is not on the rack");
    return;
  }
  const work::OwnedClamp& owned = c.shop.clamps[*clamp.owned];
  c.require(owned.kind == clamp.kind, clamp_text(clamp) + " is of another kind than on the rack");
  c.require(owned.opening.mm() >= clamp.span_mm + pads - 0.01,
            clamp_text(clamp) + " opens too little");
  c.require(clamp.force_N <= owned.force_N * (1 + 1e-6),
            clamp_text(clamp) + " is asked for more than a person can apply with it");
}

// As hard as it is said to be drawn, of what people give with the kind; none so little that it falls off.
void verify_strength(VerifyContext& c, const plan::PlannedClamp& clamp) {
  const tables::ClampKind* kind = tables::find_clamp_kind(clamp.kind);
  const double hands_N = clamp.owned && *clamp.owned < c.shop.clamps.size()
                             ? c.shop.clamps[*clamp.owned].force_N
                         : kind != nullptr ? kind->force_typ_N
                                           : 0;
  const bool spring = kind != nullptr && kind->use == tables::ClampUse::position;
  const double thirds = clamp.strength == plan::Strength::gentle ? 1
                        : clamp.strength == plan::Strength::firm ? 2
                                                                 : 3;
  c.require(spring || 3 * clamp.force_N <= thirds * hands_N * 1.001,
            clamp_text(clamp) + " is drawn harder than it is said to be");
  c.require(clamp.force_N >= 100 - 1e-6 || !clamp.round.empty(),
            clamp_text(clamp) + " is drawn so little that it falls off");
}

// Nobody can put one clamp in two places at once.
void verify_counts(VerifyContext& c, const plan::Stage& stage) {
  std::map<std::size_t, int> used;
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    if (clamp.owned) {
      ++used[*clamp.owned];
    }
    for (const plan::PlannedClamp& other : stage.clamps) {
      const geometry::Direction apart = clamp.at - other.at;
      const double along = dot(apart, clamp.axis);
      // Straps lie one above the other along their axis; other clamps beside it.
      const double off2 =
          clamp.round.empty() ? dot(apart, apart) - along * along : dot(apart, apart);
      c.require(clamp.n >= other.n || std::abs(dot(clamp.axis, other.axis)) < 0.99 || off2 > 1,
                clamp_text(clamp) + " stands where " + clamp_text(other) + " stands");
    }
  }
  for (const plan::CornerClamp& corner : stage.corner_clamps) {
    ++used[corner.owned];
    const tables::ClampKind* kind = tables::find_clamp_kind(corner.kind);
    c.require(kind != nullptr && kind->use == tables::ClampUse::corner,
              corner.kind + " is told to keep a corner, which it can't");
    c.require(
        std::find(stage.joints.begin(), stage.joints.end(), corner.joint) != stage.joints.end(),
        "a corner clamp is set on a joint that the stage doesn't close");
  }
  for (const auto& [row, count] : used) {
    c.require(
        c.shop.unlimited_rack || row >= c.shop.clamps.size() || count <= c.shop.clamps[row].count,
        "more clamps of row " + std::to_string(row + 1) + " are used than are on the rack");
  }
}

// A screw that is snug gives a quarter of what a hand can with it, half of what is planned at most;
// else what the shop file says.
void verify_snug_force(VerifyContext& c, const plan::PlannedClamp& clamp) {
  double most = clamp.force_N / 2;
  const tables::ClampKind* kind = tables::find_clamp_kind(clamp.kind);
  if (clamp.owned && c.shop.clamps[*clamp.owned].snug_force_N) {
    most = std::min(*c.shop.clamps[*clamp.owned].snug_force_N, clamp.force_N);
  } else if (kind != nullptr && kind->use == tables::ClampUse::position) {
    most = clamp.force_N;
  } else if (kind != nullptr) {
    most = std::min(most, 0.25 * (clamp.owned ? c.shop.clamps[*clamp.owned].force_N
                                              : kind->force_typ_N));
  }
  c.require(clamp.snug_N >= 0 && clamp.snug_N <= most * 1.001,
            clamp_text(clamp) + " is snug with " + shown(clamp.snug_N) + " N of " + shown(most));
}

void verify_bearing(VerifyContext& c, const plan::PlannedClamp& clamp) {
  const plan::PadSize& under = clamp.caul ? *clamp.caul : clamp.pad;
  const double area = under.along_mm * under.across_mm;
  c.require(area > 0 && clamp.force_N <= clamp.bearing_limit_MPa * area * 1.001,
            clamp_text(clamp) + " dents the wood: " + shown(clamp.force_N / area) + " MPa over " +
                shown(clamp.bearing_limit_MPa));
}

// No held line's mean is over the high end of what is published for its wood and glue, but where its
// clamps are no more than snug.
void verify_ceiling(VerifyContext& c, const plan::LinePressure& line,
                    std::span<const plan::PlannedClamp* const> its) {
  const work::Joint& joint = c.joints[line.joint];
  const tables::GlueFamily* family =
      tables::find_glue_family(joint.glue.empty() ? c.plan.glue.glue.family : joint.glue);
  const tables::Wood* one = wood_of(c.job.parts[joint.parts[0]]);
  const tables::Wood* other = wood_of(c.job.parts[joint.parts[1]]);
  const bool jaws = std::ranges::all_of(
      its, [](const plan::PlannedClamp* clamp) { return clamp->round.empty(); });
  // Those at the ends of a bend are drawn to bend it: nobody is farther out on their side.
  const auto bends = [&](const plan::PlannedClamp& end) {
    const auto out = [&](double side) {
      return std::ranges::none_of(its, [&](const plan::PlannedClamp* clamp) {
        return side * clamp->at.x > side * end.at.x + 1;
      });
    };
    return c.job.bend && (out(1) || out(-1));
  };
  const bool drawn = std::ranges::any_of(its, [&](const plan::PlannedClamp* clamp) {
    return clamp->force_N > 100 * 1.001 && !bends(*clamp);
  });
  if (family == nullptr || one == nullptr || other == nullptr || !jaws || !drawn) {
    return;
  }
  const double most = std::max(pressure_range(*family, *one, *other).hi_MPa, line.hold_MPa);
  c.require(line.mean_MPa <= most * 1.01, "joint " + joint_name(joint, c.job) +
                                              " is pressed harder than its wood and glue want");
}

// What holds does so from weak hands too, which give 0.6 of what is planned (Fine Woodworking, 'The right number of
// clamps', 2010): asked where boards lie flat on one another under flat cauls, so that pressure goes with the force.
// Springs draw themselves.
void verify_weak_hands(VerifyContext& c, const plan::LinePressure& line,
                       std::span<const plan::PlannedClamp* const> its) {
  constexpr double kWeakHand = 0.6;
  const bool screwed = std::ranges::all_of(its, [](const plan::PlannedClamp* clamp) {
    const tables::ClampKind* kind = tables::find_clamp_kind(clamp->kind);
    return clamp->round.empty() && clamp->caul_camber_mm == 0 && kind != nullptr &&
           kind->use != tables::ClampUse::position;
  });
  const bool bowed = std::ranges::any_of(c.plan.pressure, [](const plan::LinePressure& l) { return l.bow_mm != 0; });
  const double gap = c.joints[line.joint].faces[line.face].contact.gap_mm;
  if (!its.empty() && screwed && !bowed && line.closing_N == 0 && gap == 0) {
    c.require(kWeakHand * line.min_MPa >= line.hold_MPa * 0.999,
              "joint " + joint_name(c.joints[line.joint], c.job) + " is held by strong hands only");
  }
}

// Lightly held is 10 psi at the least, or half of the line at what holds; and nothing is pulled in.
void verify_lightly(VerifyContext& c, const plan::LinePressure& line) {
  constexpr double kTenPsi_MPa = 0.0689;
  const auto holding = std::ranges::count_if(
      line.samples, [&](const auto& sample) { return sample[1] >= line.hold_MPa * 0.999; });
  const bool half = 2 * holding >= static_cast<std::ptrdiff_t>(line.samples.size()) &&
                    line.open_gap_mm <= 0.05;
  const double gap = c.joints[line.joint].faces[line.face].contact.gap_mm;
  c.require((line.min_MPa >= kTenPsi_MPa || half) && line.bow_mm == 0 && gap <= 0.05,
            "joint " + joint_name(c.joints[line.joint], c.job) +
                " is said to be lightly held and isn't");
}

// On edges and faces clamps stand a foot apart at most, and three at least on more than 16 in.
void verify_spacing(VerifyContext& c, const plan::LinePressure& line,
                    std::span<const plan::PlannedClamp* const> its) {
  const work::Joint& joint = c.joints[line.joint];
  const bool asks = joint.kind == work::JointKind::edge || joint.kind == work::JointKind::lamination;
  const geometry::Contact& face = joint.faces[line.face].contact;
  const geometry::Extent run = extent_along(face.regions, face.along);
  std::vector<double> at;
  for (const plan::PlannedClamp* clamp : its) {
    at.push_back(dot(clamp->at, face.along));
  }
  std::ranges::sort(at);
  if (!asks || at.empty() || line.level == plan::Level::short_of_hold) {
    return;
  }
  const std::string name = "joint " + joint_name(joint, c.job);
  c.require(run.size() <= 406.5 || at.size() >= 3, name + " is long and has fewer than three clamps");
  for (std::size_t i = 1; i < at.size(); ++i) {
    c.require(at[i] - at[i - 1] <= 305, name + " has clamps more than a foot apart");
  }
}

// What a clamp gives a joint at most. A strap gives its tension; under cauls taller than it, which
// clear a mitre's arris, T / cos(pi / n) of n corners.
double most_N(const VerifyContext& c, const plan::PlannedClamp& clamp) {
  if (clamp.round.empty()) {
    return clamp.force_N;
  }
  const double wide_mm = clamp.owned && *clamp.owned < c.shop.clamps.size()
                             ? c.shop.clamps[*clamp.owned].pad_width.mm()
                             : tables::band_kind().pad_width_mm;
  const double half_turn = std::numbers::pi / static_cast<double>(clamp.round.size());
  return clamp.pad.across_mm > wide_mm + 0.01 ? clamp.force_N / geometry::cosine(half_turn)
                                              : clamp.force_N;
}

// What a line is said to carry can't be more than the clamps that press it give.
void verify_pressure(VerifyContext& c) {
  for (const plan::LinePressure& line : c.plan.pressure) {
    if (line.joint >= c.joints.size() || line.face >= c.joints[line.joint].faces.size()) {
      c.require(false, "a pressure is told of a face that isn't there");
      continue;
    }
    const std::string name = joint_name(c.joints[line.joint], c.job);
    double force = 0;
    std::vector<const plan::PlannedClamp*> its;
    for (const plan::Stage& stage : c.plan.stages) {
      for (const plan::PlannedClamp& clamp : stage.clamps) {
        const bool along = !clamp.round.empty() || std::abs(dot(clamp.axis, line.axis)) > 0.99;
        const bool told =
            std::find(clamp.joints.begin(), clamp.joints.end(), line.joint) != clamp.joints.end();
        if (along && told) {
          its.push_back(&clamp);
        }
        force += !along ? 0 : told ? most_N(c, clamp) : kUntold * clamp.force_N;
      }
    }
    // What a mitre carries along the axis is its pressure on the area seen that way; of a face that
    // is glued in its middle only, on that.
    const work::GlueFace& face = c.joints[line.joint].faces[line.face];
    const double area = c.joints[line.joint].glued_share(face) * face.contact.area_mm2 *
                        std::abs(dot(face.contact.normal, line.axis));
    c.require(line.mean_MPa * area <= 1.02 * force + 1,
              "joint " + name + " is said to carry more than its clamps give");
    c.require(line.min_MPa <= line.mean_MPa + 1e-9 && line.mean_MPa <= line.max_MPa + 1e-9,
              "joint " + name + ": least, mean and greatest pressure are out of order");
    const bool held = line.level == plan::Level::full || line.level == plan::Level::hold;
    c.require(!held || line.min_MPa >= line.hold_MPa * 0.999,
              "joint " + name + " is said to be held and isn't");
    if (held) {
      verify_weak_hands(c, line, its);
    }
    if (line.level != plan::Level::seat) {
      verify_ceiling(c, line, its);
      verify_spacing(c, line, its);
    }
    if (line.level == plan::Level::light) {
      verify_lightly(c, line);
    }
  }
}

// No mallet brings a shelf home in its dado, nor a corner of fingers: what is said to be home has a
// clamp.
void verify_home(VerifyContext& c) {
  for (const plan::LinePressure& line : c.plan.pressure) {
    const work::JointKind kind = c.joints[line.joint].kind;
    const bool asks = kind == work::JointKind::dado || kind == work::JointKind::fingers;
    const bool clamped = std::ranges::any_of(c.plan.stages, [&](const plan::Stage& stage) {
      return std::ranges::any_of(stage.clamps, [&](const plan::PlannedClamp& clamp) {
        return std::ranges::find(clamp.joints, line.joint) != clamp.joints.end();
      });
    });
    c.require(!asks || line.level == plan::Level::short_of_hold || clamped,
              "joint " + joint_name(c.joints[line.joint], c.job) + " is said to be home unclamped");
  }
}

// Every glued joint must be told of: its main face held, or short of it; where its own fit presses
// that one, any face; where it presses them all (a tongue with room at its edges), none.
void verify_every_joint_is_told(VerifyContext& c) {
  for (work::JointId j = 0; j < c.joints.size(); ++j) {
    const bool told = std::any_of(c.plan.pressure.begin(), c.plan.pressure.end(),
                                  [&](const plan::LinePressure& l) {
                                    const auto face = main_face(c.joints[j]);
                                    return l.joint == j && (!face || l.face == *face);
                                  });
    bool by_fit_alone = true;
    for (std::size_t f = 0; f < c.joints[j].faces.size(); ++f) {
      by_fit_alone = by_fit_alone && fit_pressed(c.joints[j], f);
    }
    const bool lies_in_groove =
        c.joints[j].kind == work::JointKind::groove && !main_face(c.joints[j]);
    c.require(told || by_fit_alone || lies_in_groove || !c.joints[j].glued ||
                  work::wants_no_clamp(c.joints[j].held_by),
              "nothing is said of the pressure on joint " + joint_name(c.joints[j], c.job));
  }
}

}  // namespace

void verify_clamps(VerifyContext& c) {
  for (const plan::Stage& stage : c.plan.stages) {
    std::vector<geometry::Solid> work;
    for (work::PartId part : stage.parts) {
      work.push_back(c.solids[part]);
    }
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      if (clamp.round.empty()) {
        verify_line_of_action(c, clamp, stage, work);
        verify_shape(c, clamp, work);
      } else {
        verify_strap(c, clamp, work);
      }
      verify_opening(c, clamp);
      verify_bearing(c, clamp);
      verify_strength(c, clamp);
      verify_snug_force(c, clamp);
    }
    verify_counts(c, stage);
  }
  if (!c.plan.stages.empty()) {
    verify_pressure(c);
    verify_home(c);
    verify_every_joint_is_told(c);
  }
}

}  // namespace planner::verify
