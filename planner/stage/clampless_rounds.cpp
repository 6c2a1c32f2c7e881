#include "planner/stage/clampless_rounds.h"

#include <algorithm>
#include <cmath>

#include "planner/base/units.h"
#include "planner/work/joint_means.h"
#include "planner/work/step_seconds.h"

namespace planner::stage {
namespace {

using geometry::Direction;
using geometry::Point;

// From the edge of a saw's kerf, so that no tooth meets a pin (common practice: 3/8 in).
constexpr double kOffTheSaw_mm = 10;
// A pump's bag: 24 in of mercury (published: veneering handbooks; 0.08 MPa).
constexpr double kBag_MPa = 0.08;

// Away from every kerf, along the row.
double off_the_saws(double at_mm, const Point& from, const Direction& along, const work::Job& job) {
  for (const work::SawLater& saw : job.saw_later) {
    const auto axis = static_cast<std::size_t>(saw.axis);
    const double slope = along[axis];
    const double clear = saw.kerf.mm() / 2 + kOffTheSaw_mm;
    const double away = from[axis] + slope * at_mm - saw.at.mm();
    if (std::abs(slope) > 0.5 && std::abs(away) < clear) {
      at_mm += ((away < 0 ? -clear : clear) - away) / slope;
    }
  }
  return at_mm;
}

// How far the part reaches that way.
double reach_mm(const geometry::Solid& solid, const Direction& way) {
  double most = -1e300;
  for (const auto& cell : cell_points(solid)) {
    for (const Point& p : cell) {
      most = std::max(most, dot(p, way));
    }
  }
  return most;
}

// Two at the least, and as many as stand nowhere farther apart than they may.
int fasteners_along(double run_mm) {
  return std::max(2, static_cast<int>(std::ceil(run_mm / work::kFastenerSpacing_mm - 1e-9)));
}

plan::Fastening fastening(const StageInput& input, work::JointId id) {
  const work::Joint& joint = input.joints[id];
  const auto found = sheet_face(joint, input.job);
  const std::size_t face = found ? found->face : 0, side = found ? found->sheet : 0;
  const geometry::Contact& contact = joint.faces[face].contact;
  const Direction out = (side == 0 ? -1.0 : 1.0) * contact.normal;
  const geometry::Extent run = extent_along(contact.regions, contact.along);
  const int count = fasteners_along(run.size());
  plan::Fastening row{id, joint.parts[side], joint.held_by, {}, run.size() / count};
  const double outside = reach_mm(input.solids[joint.parts[side]], out);
  const Point middle = contact.centroid + (outside - dot(contact.centroid, out)) * out;
  const Point start = middle + (run.lo - dot(contact.centroid, contact.along)) * contact.along;
  for (int k = 0; k < count; ++k) {
    const double at = off_the_saws((k + 0.5) * row.spacing_mm, start, contact.along, input.job);
    row.at.push_back(start + at * contact.along);
  }
  return row;
}

// From pockets on the upper side of the part whose end is screwed on, so far from that end (common
// practice: 1 1/2 in).
plan::Fastening pocket_screws(const StageInput& input, work::JointId id) {
  constexpr double kFromEnd_mm = 1.5 * base::kMmPerInch;
  const work::Joint& joint = input.joints[id];
  const work::GlueFace& face = joint.faces[0];
  const std::size_t side = face.grain[0] == work::GrainClass::end_grain ? 0 : 1;
  const geometry::Contact& contact = face.contact;
  const Direction in = (side == 0 ? -1.0 : 1.0) * contact.normal;  // from the joint into the part
  const Direction across = cross(contact.normal, contact.along);
  const Direction up = (across.x + across.y + across.z > 0 ? 1.0 : -1.0) * across;
  const geometry::Extent run = extent_along(contact.regions, contact.along);
  const int count = fasteners_along(run.size());
  plan::Fastening row{id, joint.parts[side], joint.held_by, {}, run.size() / count, true};
  const geometry::Solid& solid = input.solids[joint.parts[side]];
  const double top = reach_mm(solid, up);
  const double from_end = std::min(kFromEnd_mm, (reach_mm(solid, in) + reach_mm(solid, -in)) / 2);
  const Point middle = contact.centroid + (top - dot(contact.centroid, up)) * up + from_end * in;
  for (int k = 0; k < count; ++k) {
    const double at = run.lo + (k + 0.5) * row.spacing_mm - dot(contact.centroid, contact.along);
    row.at.push_back(middle + at * contact.along);
  }
  return row;
}

double broad_area_mm2(std::span<const work::Joint> joints, const plan::Loading& load) {
  double area = 0;
  for (const work::JointId id : load.joints) {
    area += joints[id].faces[0].contact.area_mm2;
  }
  return area;
}

int fasteners(const plan::Stage& means, const StageDemand& demand) {
  std::size_t count = 0;
  for (const plan::Fastening& row : means.fastenings) {
    count += std::ranges::count(demand.holds, row.joint) > 0 ? row.at.size() : 0;
  }
  return static_cast<int>(count);
}

// One of a sheet's fasteners of a kind.
std::vector<StageDemand> fasten_rounds(const plan::Stage& means, const work::Pace& pace) {
  std::vector<StageDemand> rounds;
  std::vector<const plan::Fastening*> first;
  for (const plan::Fastening& row : means.fastenings) {
    const auto same = std::ranges::find_if(first, [&](const plan::Fastening* other) {
      return other->sheet == row.sheet && other->by == row.by;
    });
    if (same == first.end()) {
      first.push_back(&row);
      StageDemand round;
      round.snug_s = work::whole_seconds(fastener_seconds(row.by, pace));
      round.does = plan::StepKind::fasten;
      round.holds = {row.joint};
      rounds.push_back(std::move(round));
    } else {
      rounds[static_cast<std::size_t>(same - first.begin())].holds.push_back(row.joint);
    }
  }
  for (StageDemand& round : rounds) {
    round.clamps = fasteners(means, round);
  }
  return rounds;
}

StageDemand load_round(const plan::Loading& load, const work::Pace& pace) {
  const bool bag = load.by == work::HeldBy::vacuum;
  StageDemand round;
  round.clamps = bag ? 1 : std::max(1, load.weights);
  round.snug_s = work::whole_seconds(bag ? pace.bag_s + pace.pump_s : pace.weight_s);
  round.does = plan::StepKind::load;
  round.holds = load.joints;
  return round;
}

}  // namespace

std::vector<plan::Fastening> fastenings_of(const StageInput& input, const StageWork& work) {
  std::vector<plan::Fastening> out;
  for (const work::JointId id : work.joints) {
    if (work::fastens(input.joints[id].held_by)) {
      out.push_back(input.joints[id].pocket ? pocket_screws(input, id) : fastening(input, id));
    }
  }
  return out;
}

std::vector<plan::Loading> loadings_of(const StageInput& input, const StageWork& work) {
  std::vector<plan::Loading> out;
  for (const work::HeldBy by : {work::HeldBy::weights, work::HeldBy::vacuum}) {
    plan::Loading load{by, {}, 0, 0, 0};
    std::ranges::copy_if(work.joints, std::back_inserter(load.joints),
                         [&](work::JointId id) { return input.joints[id].held_by == by; });
    if (load.joints.empty()) {
      continue;
    }
    load.pressure_MPa = kBag_MPa;
    if (by == work::HeldBy::weights) {
      for (const work::OwnedWeight& weight : input.shop.weights) {
        load.weights += weight.count;
        load.mass_kg += weight.count * weight.mass_kg;
      }
      load.pressure_MPa = load.mass_kg * base::kGravity_m_s2 / broad_area_mm2(input.joints, load);
    }
    out.push_back(std::move(load));
  }
  return out;
}

void add_clampless(const plan::Stage& means, const StageWork& work, const work::Pace& pace,
                   std::vector<StageDemand>& demands, std::vector<StageRing>& rings) {
  std::vector<StageDemand> more = fasten_rounds(means, pace);
  for (const plan::Loading& load : means.loadings) {
    more.push_back(load_round(load, pace));
  }
  if (more.empty()) {
    return;
  }
  const int clamped = static_cast<int>(demands.size());
  std::vector<int> before;
  for (int g = 0; g < clamped; ++g) {
    before.push_back(g);
  }
  StageDemand nobodys;
  nobodys.closed_first = work.joints;
  if (clamped == 0) {
    before.push_back(static_cast<int>(more.size()));
  }
  for (StageDemand& round : more) {
    round.closed_first = round.held_snug = round.presses = round.holds;
    std::erase_if(nobodys.closed_first, [&](work::JointId id) {
      return std::ranges::count(round.holds, id) > 0;
    });
    round.after = before;
    round.ring = static_cast<int>(rings.size());
    rings.emplace_back();
    demands.push_back(std::move(round));
  }
  if (clamped == 0) {
    demands.push_back(std::move(nobodys));
  }
}

}  // namespace planner::stage
