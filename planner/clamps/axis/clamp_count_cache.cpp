#include "planner/clamps/axis/clamp_count_cache.h"

#include <algorithm>
#include <utility>

namespace planner::clamps::axis {

RoughCount ClampCountCache::of(const AxisClamps& plan, const AxisQuestion& q,
                               const PressNeed& need) {
  Asked asked{plan.round, plan.packing, q.setting.kind, need};
  const auto known = std::find_if(made_.begin(), made_.end(),
                                  [&](const Made& made) { return made.asked == asked; });
  if (known != made_.end()) {
    return known->count;
  }
  made_.push_back({std::move(asked), rough_count(plan, q, need)});
  return made_.back().count;
}

}  // namespace planner::clamps::axis
