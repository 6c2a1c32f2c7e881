#include "planner/clamps/axis/clamp_count_cache.h"

#include <utility>

namespace planner::clamps::axis {
namespace {

std::vector<double> key_of(const AxisClamps& plan, const RoundSetting& s, const PressNeed& need) {
  std::vector<double> key{static_cast<double>(plan.packing.padding),
                          plan.packing.thick_mm,
                          s.jaw_mm,
                          s.jaw_high_mm,
                          s.force_N,
                          s.throat_mm,
                          static_cast<double>(s.most),
                          plan.round.axis.x,
                          plan.round.axis.y,
                          plan.round.axis.z,
                          need.hand,
                          need.margin};
  key.insert(key.end(), need.line_MPa.begin(), need.line_MPa.end());
  return key;
}

}  // namespace

RoughCount ClampCountCache::of(const AxisClamps& plan, const AxisQuestion& q,
                               const PressNeed& need) {
  std::vector<double> key = key_of(plan, q.setting, need);
  if (const auto it = counts_.find(key); it != counts_.end()) {
    return it->second;
  }
  const RoughCount count = rough_count(plan, q, need);
  counts_.emplace(std::move(key), count);
  return count;
}

}  // namespace planner::clamps::axis
