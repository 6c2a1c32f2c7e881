#include "planner/fit.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/contact.h"
#include "planner/cut.h"
#include "planner/job_check.h"

namespace planner {
namespace {

// Common practice: 1/32 in on the diagonals of small boxes, 1/16 in on carcasses. Where small ends,
// 24 in, is our choice.
double tolerance_for(const Ring4& ring) {
  const double longest = std::max(ring.outside_mm[0], ring.outside_mm[1]);
  return longest <= 24 * 25.4 ? 25.4 / 32 : 25.4 / 16;
}

// Finer than a shaving: not worth a word.
constexpr double kWorthTelling_mm = 0.1;

std::optional<PartId> part_named(const Job& job, const std::string& name) {
  const auto found = std::find_if(job.parts.begin(), job.parts.end(),
                                  [&](const Part& part) { return part.name == name; });
  return found == job.parts.end()
             ? std::nullopt
             : std::optional<PartId>(static_cast<PartId>(found - job.parts.begin()));
}

std::optional<PartId> mate_of(const Joint& joint, PartId part) {
  return joint.parts[0] == part   ? std::optional<PartId>(joint.parts[1])
         : joint.parts[1] == part ? std::optional<PartId>(joint.parts[0])
                                  : std::nullopt;
}

bool looks_along(const GlueFace& face, const geometry::Direction& d) {
  return std::abs(dot(face.contact.normal, d)) > 0.5;
}

// The parts that the ends of `part` stand against: theirs is a face across its length.
std::vector<PartId> at_ends_of(PartId part, const Job& job, std::span<const Joint> joints) {
  const geometry::Direction grain = grain_of(job.parts[part]);
  std::vector<PartId> out;
  for (const Joint& joint : joints) {
    const auto mate = mate_of(joint, part);
    const bool end = mate && std::any_of(joint.faces.begin(), joint.faces.end(),
                                         [&](const auto& f) { return looks_along(f, grain); });
    if (end) {
      out.push_back(*mate);
    }
  }
  return out;
}

// Of the two pairs of opposite parts of the ring, the one that stands between the other: its
// length is less than the ring's.
std::vector<PartId> closing_pair(const Ring4& ring, const Job& job) {
  const int first_axis = ring.normal_axis == 0 ? 1 : 0;
  for (const std::size_t first : {0u, 1u}) {
    std::vector<PartId> pair{ring.parts[first], ring.parts[first + 2]};
    std::sort(pair.begin(), pair.end());
    const bool between = std::all_of(pair.begin(), pair.end(), [&](PartId id) {
      const Part& part = job.parts[id];
      const double outside = ring.outside_mm[part.along == first_axis ? 0 : 1];
      return part.along != ring.normal_axis && part.length.mm() < outside - kWorthTelling_mm;
    });
    if (between) {
      return pair;
    }
  }
  return {};
}

void find_pattern(const std::vector<double>& r, OpeningFit& fit) {
  double parts = 0, heights = 0, twist = 0;
  if (fit.parts.size() == 2 && r.size() == 4) {
    parts = (r[2] + r[3] - r[0] - r[1]) / 2;
    heights = (r[1] + r[3] - r[0] - r[2]) / 2;
    twist = (r[0] + r[3] - r[1] - r[2]) / 2;
  } else if (fit.parts.size() == 2 && r.size() == 2) {
    parts = r[1] - r[0];
  } else if (fit.parts.size() == 1 && r.size() == 2) {
    heights = r[1] - r[0];
  } else {
    return;
  }
  using Pattern = OpeningFit::Pattern;
  fit.pattern = Pattern::between_parts;
  fit.pattern_mm = parts;
  for (const auto& [pattern, mm] :
       {std::pair(Pattern::low_to_high, heights), std::pair(Pattern::twist, twist)}) {
    if (std::abs(mm) > std::abs(fit.pattern_mm) + 1e-9) {
      fit.pattern = pattern;
      fit.pattern_mm = mm;
    }
  }
}

OpeningFit opening_fit(const Job& job, std::span<const Joint> joints) {
  const DryFit& dry = *job.dry_fit;
  OpeningFit fit;
  std::vector<double> readings;
  for (const Length opening : dry.openings) {
    readings.push_back(opening.mm());
  }
  for (const std::string& name : dry.closes) {
    if (const auto part = part_named(job, name)) {
      fit.parts.push_back(*part);
    }
  }
  const auto [low, high] = std::minmax_element(readings.begin(), readings.end());
  const auto first_high = std::max_element(readings.begin(), readings.end());
  fit.cut_mm = *low;
  fit.spread_mm = *high - *low;
  fit.smallest = static_cast<std::size_t>(low - readings.begin());
  fit.largest = static_cast<std::size_t>(first_high - readings.begin());
  for (const PartId part : fit.parts) {
    fit.drawn_mm = job.parts[part].length.mm();
    for (const PartId mate : at_ends_of(part, job, joints)) {
      if (std::find(fit.neighbours.begin(), fit.neighbours.end(), mate) == fit.neighbours.end()) {
        fit.neighbours.push_back(mate);
      }
    }
  }
  find_pattern(readings, fit);
  return fit;
}

bool overlaps(Length lo1, Length hi1, Length lo2, Length hi2) {
  return std::max(lo1, lo2) < std::min(hi1, hi2);
}

// A rabbet, groove or dado: which way it is deep and wide.
struct CutAxes {
  int depth, width;
  Length depth_size, width_size;
};
std::optional<CutAxes> axes_of(const Cut& cut) {
  if (const auto* rabbet = std::get_if<Rabbet>(&cut.shape)) {
    return CutAxes{rabbet->on.axis, rabbet->side.axis, rabbet->depth, rabbet->width};
  }
  if (const auto* channel = std::get_if<Channel>(&cut.shape)) {
    return CutAxes{channel->on.axis, 3 - channel->on.axis - channel->runs, channel->depth,
                   channel->width};
  }
  return std::nullopt;
}

// Whether the mate's board reaches into what the cut takes out. Turned parts are not looked at.
bool goes_into(const Part& mate, const Part& part, const Cut& cut) {
  if (mate.turn || part.turn) {
    return false;
  }
  const geometry::LatticeBox board = mate.blank();
  for (const geometry::LatticeBox& box : tools_of(part, cut).boxes) {
    bool all = true;
    for (std::size_t i = 0; i < 3; ++i) {
      all =
          all && overlaps(box.lo[i] + part.at[i], box.hi[i] + part.at[i], board.lo[i], board.hi[i]);
    }
    if (all) {
      return true;
    }
  }
  return false;
}

const MeasuredCut* measured(const Job& job, PartId a, PartId b) {
  if (!job.dry_fit) {
    return nullptr;
  }
  for (const MeasuredCut& cut : job.dry_fit->cuts) {
    const auto first = part_named(job, cut.between[0]), second = part_named(job, cut.between[1]);
    if (first && second && std::minmax(*first, *second) == std::minmax(a, b)) {
      return &cut;
    }
  }
  return nullptr;
}

std::optional<CutFit> cut_fit(const Job& job, const Joint& joint, std::size_t side) {
  const PartId part = joint.parts[side], mate = joint.parts[1 - side];
  for (const Cut& cut : job.parts[part].cuts) {
    const auto axes = axes_of(cut);
    if (!axes || !goes_into(job.parts[mate], job.parts[part], cut)) {
      continue;
    }
    const MeasuredCut* made = measured(job, part, mate);
    CutFit fit;
    fit.cut_in = part;
    fit.mate = mate;
    fit.kind = joint.kind;
    fit.depth_axis = axes->depth;
    fit.width_axis = axes->width;
    fit.mate_mm = job.parts[mate].size(axes->width).mm();
    fit.width_mm = made && made->width ? made->width->mm() : axes->width_size.mm();
    if (made && made->depth) {
      fit.depth_mm = made->depth->mm();
      fit.drawn_depth_mm = axes->depth_size.mm();
    }
    // A mate with a tongue or rabbet of its own goes in by less than its size: only a cut that was
    // measured is judged there.
    const bool plain = job.parts[mate].cuts.empty();
    const bool tells = made != nullptr || (plain && std::abs(fit.spare_mm()) > kWorthTelling_mm);
    return tells ? std::optional(fit) : std::nullopt;
  }
  return std::nullopt;
}

std::vector<CutFit> cut_fits(const Job& job, std::span<const Joint> joints, Diagnostics& told) {
  std::vector<CutFit> fits;
  for (const Joint& joint : joints) {
    for (const std::size_t side : {0u, 1u}) {
      if (const auto fit = cut_fit(job, joint, side)) {
        fits.push_back(*fit);
      }
    }
  }
  if (job.dry_fit) {
    for (const MeasuredCut& cut : job.dry_fit->cuts) {
      const bool used = std::any_of(fits.begin(), fits.end(), [&](const CutFit& fit) {
        return measured(job, fit.cut_in, fit.mate) == &cut;
      });
      if (!used) {
        told.push_back(
            {Severity::error, cut.place,
             "no rabbet, dado or groove between " + cut.between[0] + " and " + cut.between[1],
             "`glueup check` lists the joints found"});
      }
    }
  }
  return fits;
}

// Parts that sit in rabbets or grooves of at least three of the ring's parts.
std::vector<PartId> panels_in(const Ring4& ring, std::span<const Joint> joints, std::size_t parts) {
  std::vector<PartId> out;
  for (PartId part = 0; part < parts; ++part) {
    const auto count = std::count_if(joints.begin(), joints.end(), [&](const Joint& joint) {
      const auto mate = mate_of(joint, part);
      return mate && (joint.kind == JointKind::rabbet || joint.kind == JointKind::groove) &&
             std::find(ring.parts.begin(), ring.parts.end(), *mate) != ring.parts.end();
    });
    if (count >= 3 && std::find(ring.parts.begin(), ring.parts.end(), part) == ring.parts.end()) {
      out.push_back(part);
    }
  }
  return out;
}

std::optional<SquareFit> square_fit(const Job& job, const Ring4& ring,
                                    std::span<const Joint> joints, Diagnostics& told) {
  const DryFit& dry = *job.dry_fit;
  SquareFit fit;
  fit.ring = ring;
  fit.diagonals_mm = {dry.diagonals[0].mm(), dry.diagonals[1].mm()};
  const auto [d1, d2] = fit.diagonals_mm;
  fit.wanted_mm = std::sqrt((d1 * d1 + d2 * d2) / 2);
  const auto off = [&](const std::array<double, 2>& sides) {
    return std::abs(std::hypot(sides[0], sides[1]) - fit.wanted_mm);
  };
  fit.inside =
      dry.around.empty() ? off(ring.inside_mm) <= off(ring.outside_mm) : dry.around == "inside";
  fit.sides_mm = fit.inside ? ring.inside_mm : ring.outside_mm;
  fit.other_sides = off(fit.sides_mm) > 1;
  const auto lean = lean_of(d1, d2, fit.sides_mm[0], fit.sides_mm[1]);
  if (!lean) {
    told.push_back({Severity::error, dry.place,
                    "these diagonals belong to no four-sided work of the drawn size",
                    "measure from corner to corner, both on the inside or both on the outside"});
    return std::nullopt;
  }
  fit.lean_deg = *lean * 180 / std::numbers::pi;
  for (const std::size_t i : {0u, 1u}) {
    fit.offset_mm[i] = fit.sides_mm[i] * std::abs(std::sin(*lean));
  }
  fit.tolerance_mm = tolerance_for(ring);
  fit.square = std::abs(d1 - d2) <= fit.tolerance_mm + 1e-9;
  fit.long_corners = d1 >= d2 ? std::array<RingCorner, 2>{{{false, false}, {true, true}}}
                              : std::array<RingCorner, 2>{{{true, false}, {false, true}}};
  fit.panels = panels_in(ring, joints, job.parts.size());
  return fit;
}

// The sight lines over two sticks across the work show its twist: over the sticks' length the far
// one rises by the reading, over the work's width by so much less.
WindFit wind_fit(const MeasuredWind& wind, const Ring4& ring) {
  WindFit fit;
  fit.ring = ring;
  fit.rise_mm = wind.reading.mm() * ring.outside_mm[0] / wind.sticks.mm();
  fit.high = {wind.high == "right", true};
  fit.known_side = !wind.high.empty();
  fit.tolerance_mm = tolerance_for(ring);
  fit.flat = fit.rise_mm <= fit.tolerance_mm + 1e-9;
  return fit;
}

Fit fit_of(const Job& job, std::span<const Joint> joints, const std::optional<Ring4>& ring,
           Diagnostics& told) {
  Fit fit;
  fit.ring = ring;
  fit.closing = ring ? closing_pair(*ring, job) : std::vector<PartId>{};
  fit.cuts = cut_fits(job, joints, told);
  if (!job.dry_fit) {
    return fit;
  }
  const DryFit& dry = *job.dry_fit;
  if (!dry.openings.empty()) {
    fit.opening = opening_fit(job, joints);
  }
  if (!ring && (!dry.diagonals.empty() || dry.wind)) {
    told.push_back({Severity::error, dry.place,
                    "no four parts go round an opening, so there is nothing to be square",
                    "take diagonals and wind out of [dry_fit]"});
    return fit;
  }
  if (!dry.diagonals.empty()) {
    fit.square = square_fit(job, *ring, joints, told);
  }
  if (dry.wind) {
    fit.wind = wind_fit(*dry.wind, *ring);
  }
  return fit;
}

}  // namespace

double CutFit::proud_mm() const {
  return depth_mm ? *drawn_depth_mm - *depth_mm : 0;
}

bool Fit::good() const {
  const bool cuts_good = std::all_of(cuts.begin(), cuts.end(), [](const CutFit& cut) {
    return std::abs(cut.proud_mm()) <= kUneven_mm && cut.spare_mm() > -kWorthTelling_mm;
  });
  return cuts_good && (!opening || !opening->uneven()) && (!square || square->square) &&
         (!wind || wind->flat);
}

std::optional<double> lean_of(double d1_mm, double d2_mm, double a_mm, double b_mm) {
  const double sine = (d1_mm * d1_mm - d2_mm * d2_mm) / (4 * a_mm * b_mm);
  return std::abs(sine) < 1 ? std::optional(std::asin(sine)) : std::nullopt;
}

FitAnswer judge_fit(const Job& job) {
  FitAnswer answer;
  std::vector<geometry::Solid> solids;
  std::vector<geometry::Box> boxes;
  for (const Part& part : job.parts) {
    solids.push_back(make_solid(part));
  }
  answer.diagnostics = check_solids(job, solids);
  if (has_errors(answer.diagnostics)) {
    return answer;
  }
  for (const geometry::Solid& solid : solids) {
    boxes.push_back(bounds(solid));
  }
  const auto joints = classify_joints(job, find_contacts(solids, {}));
  Fit fit = fit_of(job, joints, find_ring(joints, boxes), answer.diagnostics);
  if (!has_errors(answer.diagnostics)) {
    answer.fit = std::move(fit);
  }
  return answer;
}

}  // namespace planner
