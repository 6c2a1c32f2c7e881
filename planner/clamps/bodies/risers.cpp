#include "planner/clamps/bodies/risers.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "planner/clamps/bodies/clamp_bodies.h"
#include "planner/pressure/crush.h"

namespace planner::clamps::bodies {
namespace {

using geometry::Direction;

constexpr double kNothing_mm = 1;  // the bench gives as much, or the jaw is set a little higher

// Lowest of a box, seen along `up`.
double foot(const geometry::Box& box, const Direction& up) {
  double low = 0;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    low += std::min(box.lo[axis] * up[axis], box.hi[axis] * up[axis]);
  }
  return low;
}

// How far the bodies of these clamps reach below what the work stands on.
double reach_below(const plan::Stage& stage, std::span<const plan::PlanPart> parts, const work::Shop& shop,
                   const Direction& up, const std::set<int>& on) {
  double bottom = std::numeric_limits<double>::max();
  for (const work::PartId part : stage.parts) {
    bottom = std::min(bottom, foot(parts[part].bounds, up));
  }
  double below = 0;
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    if (!clamp.round.empty() || !on.contains(clamp.n)) {
      continue;
    }
    for (const geometry::Box& box : body_of(standing_clamp(clamp, shop), clamp.bar_side)) {
      below = std::max(below, bottom - foot(box, up));
    }
  }
  return below;
}

}  // namespace

double risers_mm(const plan::Stage& stage, std::span<const plan::PlanPart> parts,
                 const work::Shop& shop, base::Units units) {
  Direction up = (stage.bench_face.positive ? -1.0 : 1.0) * geometry::kAxis[stage.bench_face.axis];
  double below = 0;
  std::set<int> on;
  for (const plan::Step& step : stage.steps) {
    if (step.kind == plan::StepKind::turn) {
      below = std::max(below, reach_below(stage, parts, shop, up, on));
      up = -up;
    }
    on.insert(step.clamps.begin(), step.clamps.end());
  }
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    on.insert(clamp.n);
  }
  below = std::max(below, reach_below(stage, parts, shop, up, on));
  const double step = pressure::cut_sizes(units).step_mm;
  return below <= kNothing_mm ? 0 : step * std::ceil(below / step - 1e-6);
}

}  // namespace planner::clamps::bodies
