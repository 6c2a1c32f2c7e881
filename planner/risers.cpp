#include "planner/risers.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "planner/clamp_bodies.h"
#include "planner/crush.h"

namespace planner {
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

// The bar as long as the opening: what sticks out behind the head can hang over the bench's edge.
StandingClamp standing(const PlannedClamp& clamp, const Shop& shop) {
  const double flat = clamp.caul ? clamp.caul->thick_mm : clamp.pad.thick_mm;
  const double packing = std::max({flat, clamp.wedge[0].thick_mm, clamp.wedge[1].thick_mm});
  StandingClamp out;
  out.kind = find_clamp_kind(clamp.kind);
  out.axis = clamp.axis;
  out.low = clamp.at + (-packing) * clamp.axis;
  out.between_mm = clamp.span_mm + 2 * packing;
  out.throat_mm = clamp.owned           ? shop.clamps[*clamp.owned].throat.mm()
                  : out.kind->throat_mm ? out.kind->throat_mm->lo
                                        : 0;
  return out;
}

}  // namespace

double risers_mm(const Stage& stage, std::span<const PlanPart> parts, const Shop& shop,
                 Units units) {
  const Direction up =
      (stage.bench_face.positive ? -1.0 : 1.0) * geometry::kAxis[stage.bench_face.axis];
  double bottom = std::numeric_limits<double>::max();
  for (const PartId part : stage.parts) {
    bottom = std::min(bottom, foot(parts[part].bounds, up));
  }
  double below = 0;
  for (const PlannedClamp& clamp : stage.clamps) {
    if (!clamp.round.empty()) {
      continue;
    }
    for (const geometry::Box& box : body_of(standing(clamp, shop), clamp.bar_side)) {
      below = std::max(below, bottom - foot(box, up));
    }
  }
  const double step = cut_sizes(units).step_mm;
  return below <= kNothing_mm ? 0 : step * std::ceil(below / step - 1e-6);
}

}  // namespace planner
