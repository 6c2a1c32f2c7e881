#include "planner/clamps/axis/clamp_count_cache.h"

#include <algorithm>
#include <utility>

namespace planner::clamps::axis {
namespace {

constexpr std::size_t kMostPlaced = 12;

}  // namespace

template <typename Table>
auto* ClampCountCache::find(Table& made, const Asked& asked) {
  const auto known = std::ranges::find_if(made, [&](const auto& m) { return m.asked == asked; });
  return known == made.end() ? nullptr : &known->answer;
}

const AxisClamps* ClampCountCache::laid_out(const AxisQuestion& q, const Packing& packing) const {
  return find(laid_out_, {q.round, packing, q.setting.kind, {}});
}

void ClampCountCache::keep(const AxisClamps& laid_out, const AxisQuestion& q) {
  laid_out_.push_back({{laid_out.round, laid_out.packing, q.setting.kind, {}}, laid_out});
}

RoughCount ClampCountCache::of(const AxisClamps& plan, const AxisQuestion& q,
                               const PressNeed& need) {
  Asked asked{plan.round, plan.packing, q.setting.kind, need};
  if (const RoughCount* known = find(counts_, asked)) {
    return *known;
  }
  counts_.push_back({std::move(asked), rough_count(plan, q, need)});
  return counts_.back().answer;
}

AxisClamps ClampCountCache::placed(AxisClamps plan, const AxisQuestion& q, const PressNeed& need,
                                   const std::vector<int>& on_line) {
  Asked asked{plan.round, plan.packing, q.setting.kind, need};
  if (const AxisClamps* known = find(placed_, asked)) {
    return *known;
  }
  place_clamps(plan, q, need, on_line);
  placed_.push_back({std::move(asked), plan});
  if (placed_.size() > kMostPlaced) {
    placed_.pop_front();
  }
  return plan;
}

}  // namespace planner::clamps::axis
