#include "planner/dry_fit/fit.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/contact.h"
#include "geometry/elementary.h"
#include "planner/base/units.h"
#include "planner/work/cut.h"
#include "planner/work/job_check.h"
#include "planner/work/part_solid.h"

namespace planner::dry_fit {
namespace {

// Common practice: 1/32 in on the diagonals of small boxes, 1/16 in on carcasses. Where small ends,
// 24 in, is our choice.
double tolerance_for(const work::Ring& ring) {
  const double longest = std::max(ring.outside_mm[0], ring.outside_mm[1]);
  return longest <= 24 * base::kMmPerInch ? base::kMmPerInch / 32 : base::kMmPerInch / 16;
}

std::optional<work::PartId> part_named(const work::Job& job, const std::string& name) {
  const auto found = std::find_if(job.parts.begin(), job.parts.end(),
                                  [&](const work::Part& part) { return part.name == name; });
  return found == job.parts.end()
             ? std::nullopt
             : std::optional<work::PartId>(static_cast<work::PartId>(found - job.parts.begin()));
}

std::optional<work::PartId> mate_of(const work::Joint& joint, work::PartId part) {
  return joint.parts[0] == part   ? std::optional<work::PartId>(joint.parts[1])
         : joint.parts[1] == part ? std::optional<work::PartId>(joint.parts[0])
                                  : std::nullopt;
}

bool looks_along(const work::GlueFace& face, const geometry::Direction& d) {
  return std::abs(dot(face.contact.normal, d)) > 0.5;
}

// The parts that the ends of `part` stand against: theirs is a face across its length.
std::vector<work::PartId> at_ends_of(work::PartId part, const work::Job& job,
                                     std::span<const work::Joint> joints) {
  const geometry::Direction grain = grain_of(job.parts[part]);
  std::vector<work::PartId> out;
  for (const work::Joint& joint : joints) {
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
std::vector<work::PartId> closing_pair(const work::Ring& ring, const work::Job& job) {
  const int first_axis = ring.normal_axis == 0 ? 1 : 0;
  const std::size_t half = ring.parts.size() / 2;
  for (const std::size_t first : {std::size_t{0}, half / 2}) {
    std::vector<work::PartId> pair{ring.parts[first], ring.parts[first + half]};
    std::sort(pair.begin(), pair.end());
    const bool between = std::all_of(pair.begin(), pair.end(), [&](work::PartId id) {
      const work::Part& part = job.parts[id];
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

// The openings are measured between the shoulders; a part's tenons come on top.
double tenons_of(const work::Part& part) {
  double both_ends = 0;
  for (const work::Cut& cut : part.cuts) {
    const auto* tenon = std::get_if<work::Tenon>(&cut.shape);
    if (tenon != nullptr && tenon->on.axis == part.along) {
      both_ends += tenon->length.mm();
    }
  }
  return both_ends;
}

// The parts that the file says are cut to the openings; else those that stand between the others.
std::vector<work::PartId> parts_that_close(const work::Job& job,
                                           const std::vector<work::PartId>& closing) {
  std::vector<work::PartId> parts;
  for (const std::string& name : job.dry_fit->closes) {
    if (const auto part = part_named(job, name)) {
      parts.push_back(*part);
    }
  }
  return parts.empty() ? closing : parts;
}

OpeningFit opening_fit(const work::Job& job, std::span<const work::Joint> joints,
                       const std::vector<work::PartId>& closing) {
  OpeningFit fit;
  std::vector<double> readings;
  for (const geometry::Length opening : job.dry_fit->openings) {
    readings.push_back(opening.mm());
  }
  fit.parts = parts_that_close(job, closing);
  const auto [low, high] = std::minmax_element(readings.begin(), readings.end());
  const auto first_high = std::max_element(readings.begin(), readings.end());
  fit.opening_mm = *low;
  fit.spread_mm = *high - *low;
  fit.smallest = static_cast<std::size_t>(low - readings.begin());
  fit.largest = static_cast<std::size_t>(first_high - readings.begin());
  for (const work::PartId part : fit.parts) {
    fit.drawn_mm = job.parts[part].length.mm();
    fit.tenons_mm = tenons_of(job.parts[part]);
    for (const work::PartId mate : at_ends_of(part, job, joints)) {
      if (std::find(fit.neighbours.begin(), fit.neighbours.end(), mate) == fit.neighbours.end()) {
        fit.neighbours.push_back(mate);
      }
    }
  }
  find_pattern(readings, fit);
  return fit;
}

// The parts that `opening` gives a length keep that one.
std::vector<CutSize> other_sizes(const work::Job& job, const Fit& fit) {
  std::vector<CutSize> sizes = sizes_to_cut(job, fit.cuts);
  std::erase_if(sizes, [&](const CutSize& size) {
    return fit.opening && size.axis == job.parts[size.part].along &&
           std::find(fit.opening->parts.begin(), fit.opening->parts.end(), size.part) !=
               fit.opening->parts.end();
  });
  return sizes;
}

// Parts that sit in rabbets or grooves of at least three of the ring's parts, and have no play as a
// dry panel has.
std::vector<work::PartId> panels_in(const work::Ring& ring, std::span<const work::Joint> joints,
                                    std::size_t parts) {
  std::vector<work::PartId> out;
  for (work::PartId part = 0; part < parts; ++part) {
    const auto count = std::count_if(joints.begin(), joints.end(), [&](const work::Joint& joint) {
      const auto mate = mate_of(joint, part);
      return mate && joint.glued &&
             (joint.kind == work::JointKind::rabbet || joint.kind == work::JointKind::groove) &&
             std::find(ring.parts.begin(), ring.parts.end(), *mate) != ring.parts.end();
    });
    if (count >= 3 && std::find(ring.parts.begin(), ring.parts.end(), part) == ring.parts.end()) {
      out.push_back(part);
    }
  }
  return out;
}

// Off the drawn size enough for a word: 1/16 in, two divisions of a tape. Off so much that the
// reading is of something else, as a share. Our choices.
constexpr double kOffDrawn_mm = base::kMmPerInch / 16;
constexpr double kOtherWork = 0.1;

std::optional<SquareFit> square_fit(const work::Job& job, const work::Ring& ring,
                                    std::span<const work::Joint> joints, base::Diagnostics& told) {
  const work::DryFit& dry = *job.dry_fit;
  SquareFit fit;
  fit.ring = ring;
  fit.diagonals_mm = {dry.diagonals[0].mm(), dry.diagonals[1].mm()};
  const auto [d1, d2] = fit.diagonals_mm;
  fit.wanted_mm = std::sqrt((d1 * d1 + d2 * d2) / 2);
  const auto off = [&](const std::array<double, 2>& sides) {
    return std::abs(geometry::hypotenuse(sides[0], sides[1]) - fit.wanted_mm);
  };
  fit.inside =
      dry.around.empty() ? off(ring.inside_mm) <= off(ring.outside_mm) : dry.around == "inside";
  fit.sides_mm = fit.inside ? ring.inside_mm : ring.outside_mm;
  fit.other_sides = off(fit.sides_mm) > kOffDrawn_mm;
  const auto lean = lean_of(d1, d2, fit.sides_mm[0], fit.sides_mm[1]);
  if (!lean || off(fit.sides_mm) > kOtherWork * geometry::hypotenuse(fit.sides_mm[0], fit.sides_mm[1])) {
    told.push_back({base::Severity::error, dry.place,
                    "these diagonals belong to no four-sided work of the drawn size",
                    "measure from corner to corner, both on the inside or both on the outside; "
                    "`glueup dry-fit` without readings says what is drawn"});
    return std::nullopt;
  }
  fit.lean_deg = *lean * 180 / std::numbers::pi;
  for (const std::size_t i : {0u, 1u}) {
    fit.offset_mm[i] = fit.sides_mm[i] * std::abs(geometry::sine(*lean));
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
WindFit wind_fit(const work::MeasuredWind& wind, const work::Ring& ring) {
  WindFit fit;
  fit.ring = ring;
  fit.rise_mm = wind.reading.mm() * ring.outside_mm[0] / wind.sticks.mm();
  fit.high = {wind.high == "right", true};
  fit.known_side = !wind.high.empty();
  fit.tolerance_mm = tolerance_for(ring);
  fit.flat = fit.rise_mm <= fit.tolerance_mm + 1e-9;
  return fit;
}

Fit fit_of(const work::Job& job, std::span<const work::Joint> joints,
           const std::optional<work::Ring>& ring, base::Diagnostics& told) {
  Fit fit;
  fit.ring = ring;
  fit.closing = ring ? closing_pair(*ring, job) : std::vector<work::PartId>{};
  if (!fit.closing.empty()) {
    const work::Part& part = job.parts[fit.closing.front()];
    fit.closing_mm = part.length.mm() - tenons_of(part);
  }
  fit.seated = first_seat(job, joints);
  fit.cuts = cut_fits(job, joints, told);
  if (!job.dry_fit) {
    return fit;
  }
  const work::DryFit& dry = *job.dry_fit;
  if (!dry.openings.empty()) {
    fit.opening = opening_fit(job, joints, fit.closing);
  }
  fit.sizes = other_sizes(job, fit);
  if (!ring && (!dry.diagonals.empty() || dry.wind)) {
    told.push_back(
        {base::Severity::error, dry.place,
         "no four parts go round an opening, so there is nothing to be square",
         "leave diagonals and wind out; `glueup dry-fit` without readings says what to measure"});
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

bool Fit::good() const {
  const bool all_go_in = std::all_of(cuts.begin(), cuts.end(), [](const CutFit& cut) {
    return cut.open_sided() || cut.spare_mm() > -kWorthTelling_mm;
  });
  const bool as_drawn = std::all_of(sizes.begin(), sizes.end(), [](const CutSize& size) {
    return std::abs(size.longer_mm()) <= kUneven_mm + 1e-9;
  });
  return all_go_in && as_drawn && (!opening || !opening->uneven()) && (!square || square->square) &&
         (!wind || wind->flat);
}

std::optional<double> lean_of(double d1_mm, double d2_mm, double a_mm, double b_mm) {
  const double sine = (d1_mm * d1_mm - d2_mm * d2_mm) / (4 * a_mm * b_mm);
  return std::abs(sine) < 1 ? std::optional(geometry::arc_sine(sine)) : std::nullopt;
}

FitAnswer judge_fit(const work::Job& job) {
  FitAnswer answer;
  const std::vector<geometry::Solid> solids = work::make_solids(job.parts);
  answer.diagnostics = check_solids(job, solids);
  if (has_errors(answer.diagnostics)) {
    return answer;
  }
  const auto joints = classify_joints(job, find_contacts(solids, {}));
  Fit fit = fit_of(job, joints, find_ring(joints, work::bounds_of(solids)), answer.diagnostics);
  if (!has_errors(answer.diagnostics)) {
    answer.fit = std::move(fit);
  }
  return answer;
}

}  // namespace planner::dry_fit
