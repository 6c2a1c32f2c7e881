#include "planner/stage/stage_checks.h"

#include <algorithm>
#include <cmath>

#include "planner/base/units.h"
#include "planner/stage/stage_reach.h"
#include "planner/work/step_seconds.h"

namespace planner::stage {
namespace {

using Sizes = std::array<double, 3>;

// The axis along which the stage is thin, where it lies as flat as a frame or a drawer does.
std::optional<std::size_t> flat_axis(const Sizes& sizes) {
  constexpr double kFlat = 1.0 / 3;
  const auto thin = std::min_element(sizes.begin(), sizes.end());
  const auto axis = static_cast<std::size_t>(thin - sizes.begin());
  const double next = std::min(sizes[(axis + 1) % 3], sizes[(axis + 2) % 3]);
  return *thin <= kFlat * next ? std::optional(axis) : std::nullopt;
}

// Both parts reach from the same plane to the same plane along the axis.
bool level(const geometry::Box& a, const geometry::Box& b, std::size_t axis) {
  constexpr double kSame_mm = 0.1;
  return std::abs(a.lo[axis] - b.lo[axis]) < kSame_mm &&
         std::abs(a.hi[axis] - b.hi[axis]) < kSame_mm;
}

bool side_by_side(const work::Joint& joint) {
  return joint.kind == work::JointKind::edge || joint.kind == work::JointKind::lamination;
}

bool wants_flush(const work::Joint& joint, std::span<const geometry::Box> bounds,
                 std::optional<std::size_t> flat) {
  switch (joint.kind) {
    case work::JointKind::edge:
    case work::JointKind::half_lap:
    case work::JointKind::bridle:
      return true;
    default:
      return flat && level(bounds[joint.parts[0]], bounds[joint.parts[1]], *flat);
  }
}

// Under 20 in a look is quicker (common practice).
double look_s(double longest_mm, const work::Pace& pace) {
  return longest_mm < 20 * base::kMmPerInch ? pace.check_small_s : pace.check_s;
}

}  // namespace

int ring_check_s(const work::Ring& ring, const work::Pace& pace) {
  return work::whole_seconds(look_s(std::max(ring.outside_mm[0], ring.outside_mm[1]), pace));
}

std::vector<StageCheck> stage_checks(const StageWork& work, std::span<const work::Joint> joints,
                                     std::span<const geometry::Box> bounds, bool closes_ring,
                                     const work::Pace& pace) {
  const Sizes size = stage_reach(work, bounds).sizes();
  const std::optional<std::size_t> flat = flat_axis(size);
  const auto is = [&joints](auto wanted) {
    return [&joints, wanted](work::JointId id) { return wanted(joints[id]); };
  };
  const auto flush = std::ranges::count_if(
      work.joints, is([&](const work::Joint& j) { return wants_flush(j, bounds, flat); }));
  const bool boards_meet =
      std::ranges::any_of(work.joints, is([](const work::Joint& j) { return !side_by_side(j); }));
  const int look = work::whole_seconds(look_s(*std::max_element(size.begin(), size.end()), pace));
  std::vector<StageCheck> checks;
  if (flush > 0) {
    checks.push_back(
        {plan::Check::flush, work::whole_seconds(pace.flush_s * static_cast<double>(flush))});
  }
  if (boards_meet && !closes_ring) {
    checks.push_back({plan::Check::square, look});
  }
  if (flat && boards_meet) {
    checks.push_back({plan::Check::wind, look});
  }
  return checks;
}

}  // namespace planner::stage
