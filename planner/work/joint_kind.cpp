#include "planner/work/joint_kind.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace planner::work {
namespace {

constexpr JointTrade kTrades[] = {
    {JointKind::edge, "edge joint", "", "edge", ""},
    {JointKind::butt, "butt joint", "", "place", ""},
    {JointKind::lap, "lap joint", "", "face", ""},
    {JointKind::lamination, "face lamination", "", "face", ""},
    {JointKind::rabbet, "rabbet joint", "rebate joint", "rabbet", "rebate", "", kHasCut | kStepped},
    {JointKind::dado, "dado joint", "housing joint", "dado", "housing", "", kHasCut, Asks::home},
    {JointKind::groove, "groove joint", "", "groove", "", "", kHasCut},
    {JointKind::mortise_and_tenon, "mortise and tenon", "mortice and tenon", "mortise", "mortice",
     "joint", kHasCut | kStepped | kOtherShape, Asks::home},
    {JointKind::bridle, "bridle joint", "", "bridle joint", "", "", kStepped | kOtherShape},
    {JointKind::half_lap, "half-lap", "halving joint", "half-lap", "", "",
     kStepped | kGlueOnBoth | kOtherShape},
    {JointKind::fingers, "finger joint", "comb joint", "row of fingers", "", "",
     kGlueOnBoth | kOtherShape, Asks::home},
    {JointKind::dovetail, "dovetail joint", "", "row of dovetails", "", "",
     kGlueOnBoth | kOtherShape, Asks::driven},
    {JointKind::mitre, "miter joint", "mitre joint", "miter", "mitre", "",
     kGlueOnBoth | kOtherShape},
    {JointKind::dowel, "dowel joint", "", "hole", "", "dowel", kHasCut | kOtherShape,
     Asks::home},
    {JointKind::other, "joint", "", "joint", ""},
};
static_assert(
    [] {
      std::size_t row = 0;
      for (const JointTrade& trade : kTrades) {
        if (trade.kind != static_cast<JointKind>(row++)) {
          return false;
        }
      }
      return row == static_cast<std::size_t>(JointKind::other) + 1;
    }(),
    "a row for each kind, in their order");

using geometry::Direction;

bool parallel(const Direction& a, const Direction& b) {
  return std::abs(dot(a, b)) > 1 - 1e-6;
}
bool square_to(const Direction& a, const Direction& b) {
  return std::abs(dot(a, b)) < 1e-3;
}

// Faces of a joint that look the same way or the opposite way, as a family.
struct Family {
  Direction axis;           // the first face's normal, from parts[0] into parts[1]
  std::vector<int> ahead;   // faces looking along it
  std::vector<int> behind;  // faces looking against it
  bool opposed() const { return !ahead.empty() && !behind.empty(); }
  std::size_t size() const { return ahead.size() + behind.size(); }
};

std::vector<Family> families_of(const Joint& joint) {
  std::vector<Family> families;
  for (std::size_t i = 0; i < joint.faces.size(); ++i) {
    const Direction& n = joint.faces[i].contact.normal;
    auto family = std::find_if(families.begin(), families.end(),
                               [&](const Family& f) { return parallel(f.axis, n); });
    if (family == families.end()) {
      families.push_back({n, {}, {}});
      family = families.end() - 1;
    }
    (dot(family->axis, n) > 0 ? family->ahead : family->behind).push_back(static_cast<int>(i));
  }
  return families;
}

const geometry::Contact& contact(const Joint& joint, int face) {
  return joint.faces[static_cast<std::size_t>(face)].contact;
}

double offset(const Joint& joint, int face, const Direction& axis) {
  return dot(contact(joint, face).centroid, axis);
}

// Two opposed faces: the part whose faces look at each other is the one with the recess.
int host_of_cheeks(const Joint& joint, const Family& cheeks) {
  return offset(joint, cheeks.ahead[0], cheeks.axis) < offset(joint, cheeks.behind[0], cheeks.axis)
             ? 0
             : 1;
}

// Two faces at right angles: the part whose faces look towards each other is the rabbeted one.
std::optional<int> host_of_corner(const Joint& joint, int f, int g) {
  const auto& a = contact(joint, f);
  const auto& b = contact(joint, g);
  const double one = dot(b.centroid - a.centroid, a.normal);
  const double other = dot(a.centroid - b.centroid, b.normal);
  if (one > 0 && other > 0) {
    return 0;
  }
  if (one < 0 && other < 0) {
    return 1;
  }
  return std::nullopt;
}

// Where a face square to the cheeks lies along the way out of the recess: at its mouth it is a
// shoulder, at its deep end the bottom.
bool is_shoulder(const Joint& joint, const Family& cheeks, int face, int host) {
  const double sense = host == 0 ? 1 : -1;
  const Direction out = sense * contact(joint, face).normal;  // from the host into its mate
  const geometry::Extent run = extent_along(contact(joint, cheeks.ahead[0]).regions, out);
  const double at = dot(contact(joint, face).centroid, out);
  return at - run.lo > run.hi - at;
}

bool lies_on(const Part& part, const Direction& normal, int which) {
  return parallel(part_axes(part)[static_cast<std::size_t>(which)], normal);
}

JointShape one_face(const Joint& joint, const Part& a, const Part& b) {
  constexpr int kThickness = 1, kWidth = 2;
  const geometry::Contact& only = joint.faces[0].contact;
  const auto both_on = [&](int which) {
    return lies_on(a, only.normal, which) && lies_on(b, only.normal, which);
  };
  if (both_on(kThickness)) {
    const double smaller = std::min(a.length.mm() * a.width.mm(), b.length.mm() * b.width.mm());
    const bool covered = only.area_mm2 > 0.9 * smaller && !joint.faces[0].crossed;
    return {covered ? JointKind::lamination : JointKind::lap, {}};
  }
  if (both_on(kWidth) && !joint.faces[0].crossed) {
    return {JointKind::edge, {}};
  }
  return {JointKind::butt, {}};
}

// One pair of opposed cheeks, with or without a bottom, shoulders and one stop.
JointShape one_pair_of_cheeks(const Joint& joint, const Job& job, const Family& cheeks,
                              const std::vector<Family>& families) {
  const int host = host_of_cheeks(joint, cheeks);
  std::vector<Direction> others;
  bool shoulder = false;
  for (const Family& family : families) {
    if (&family == &cheeks) {
      continue;
    }
    others.push_back(family.axis);
    for (int face : family.ahead) {
      shoulder = shoulder || is_shoulder(joint, cheeks, face, host);
    }
    for (int face : family.behind) {
      shoulder = shoulder || is_shoulder(joint, cheeks, face, host);
    }
  }
  if (others.size() == 2 && shoulder) {
    return {JointKind::bridle, host};
  }
  const geometry::Contact& cheek = contact(joint, cheeks.ahead[0]);
  const Direction run = others.empty() ? cheek.along : unit(cross(cheeks.axis, others[0]));
  const Direction grain = grain_of(job.parts[joint.parts[static_cast<std::size_t>(host)]]);
  const bool along = std::abs(dot(run, grain)) > std::numbers::sqrt2 / 2;
  return {along ? JointKind::groove : JointKind::dado, host};
}

// Cheeks all round: a tenon in its mortise, or a board let in and stopped at both ends.
JointShape two_pairs_of_cheeks(const Joint& joint, const Job& job,
                               const std::vector<const Family*>& pairs,
                               const std::vector<Family>& families) {
  const int host = host_of_cheeks(joint, *pairs[0]);
  for (const Family& family : families) {
    if (family.opposed()) {
      continue;
    }
    const int face = family.ahead[0];
    if (!is_shoulder(joint, *pairs[0], face, host)) {
      // Only a bottom and no shoulder: long and thin it is a stopped housing, else a stub tenon.
      const double run = contact(joint, face).length_mm;
      if (run > 4 * contact(joint, face).width_mm) {
        const Direction grain = grain_of(job.parts[joint.parts[static_cast<std::size_t>(host)]]);
        const bool along =
            std::abs(dot(contact(joint, face).along, grain)) > std::numbers::sqrt2 / 2;
        return {along ? JointKind::groove : JointKind::dado, host};
      }
    }
  }
  return {JointKind::mortise_and_tenon, host};
}

bool face_to_face(const Joint& joint, const Part& a, const Part& b) {
  const Direction& n = joint.faces[0].contact.normal;
  return lies_on(a, n, 1) && lies_on(b, n, 1);
}

bool oblique(const Direction& normal, const Part& part) {
  const auto axes = part_axes(part);
  return std::none_of(axes.begin(), axes.end(),
                      [&](const Direction& axis) { return parallel(axis, normal); });
}

}  // namespace

std::array<Direction, 3> part_axes(const Part& part) {
  std::array<Direction, 3> axes = {geometry::kAxis[part.along], geometry::kAxis[part.face],
                                   geometry::kAxis[part.across()]};
  for (Direction& d : axes) {
    d = turned(part, d);
  }
  return axes;
}

std::optional<Direction> dovetail_run(const Joint& joint) {
  constexpr double kWedge = -0.8;  // two slopes of 1 in 4 and a little
  const auto normal = [&](std::size_t face) { return joint.faces[face].contact.normal; };
  std::optional<Direction> run;
  for (std::size_t i = 0; i < joint.faces.size() && !run; ++i) {
    for (std::size_t j = i + 1; j < joint.faces.size() && !run; ++j) {
      if (dot(normal(i), normal(j)) < kWedge && !parallel(normal(i), normal(j))) {
        run = unit(cross(normal(i), normal(j)));
      }
    }
  }
  double stops = 0;
  for (std::size_t f = 0; f < joint.faces.size() && run; ++f) {
    if (square_to(normal(f), *run)) {
      continue;
    }
    const double way = dot(normal(f), *run) > 0 ? 1 : -1;
    if (!parallel(normal(f), *run) || stops * way < 0) {
      return std::nullopt;  // tapered, or between walls
    }
    stops = way;
  }
  return stops != 0 ? run : std::nullopt;
}

const JointTrade& trade_of(JointKind kind) {
  return kTrades[static_cast<std::size_t>(kind)];
}

JointShape joint_shape(const Joint& joint, const Job& job) {
  const Part& a = job.parts[joint.parts[0]];
  const Part& b = job.parts[joint.parts[1]];
  if (a.round != b.round) {
    return {JointKind::dowel, a.round ? 1 : 0};
  }
  if (dovetail_run(joint)) {
    return {JointKind::dovetail, {}};
  }
  const Direction& largest = joint.faces[0].contact.normal;
  if (oblique(largest, a) && oblique(largest, b)) {
    return {JointKind::mitre, {}};
  }
  if (joint.faces.size() == 1) {
    return one_face(joint, a, b);
  }
  const std::vector<Family> families = families_of(joint);
  const bool all_square = std::all_of(families.begin(), families.end(), [&](const Family& f) {
    return std::all_of(families.begin(), families.end(),
                       [&](const Family& g) { return &f == &g || square_to(f.axis, g.axis); });
  });
  if (!all_square) {
    return {};
  }
  std::vector<const Family*> cheeks;
  bool many = false;
  for (const Family& family : families) {
    if (family.opposed()) {
      cheeks.push_back(&family);
      many = many || family.size() > 2;
    }
  }
  if (many) {
    return {JointKind::fingers, {}};
  }
  // Halves lie on one another with one face; a tenon or a bridle's tongue has a cheek on each side.
  if (families.size() > 1 && !families[0].opposed() && face_to_face(joint, a, b)) {
    return {JointKind::half_lap, {}};
  }
  if (cheeks.size() == 2) {
    return two_pairs_of_cheeks(joint, job, cheeks, families);
  }
  if (cheeks.size() == 1) {
    return one_pair_of_cheeks(joint, job, *cheeks[0], families);
  }
  if (cheeks.empty() && families.size() >= 2 && families.size() == joint.faces.size()) {
    return {JointKind::rabbet, host_of_corner(joint, 0, 1)};
  }
  return {};
}

std::array<bool, 2> spread_sides(const Joint& joint, const JointShape& shape) {
  if (shape.host) {
    return {*shape.host == 0, *shape.host == 1};
  }
  const bool end_grain = std::any_of(joint.faces.begin(), joint.faces.end(), [](const GlueFace& f) {
    return f.grain[0] == GrainClass::end_grain || f.grain[1] == GrainClass::end_grain;
  });
  return {true, end_grain || trade_of(shape.kind).has(kGlueOnBoth)};
}

std::string to_text(JointKind kind, bool uk_words) {
  return std::string(trade_of(kind).name_in(uk_words));
}

}  // namespace planner::work
