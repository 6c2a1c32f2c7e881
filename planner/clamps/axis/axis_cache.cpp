#include "planner/clamps/axis/axis_cache.h"

#include <algorithm>
#include <utility>

namespace planner::clamps::axis {
namespace {

constexpr std::size_t kMostPlaced = 12;

// Models made for a rough count, for placing; and what strips of a panel, which yield together, cost
// more than edges.
constexpr double kModelsOfCount = 1.5, kModelsOfPlacing = 5, kCoupled = 6;

// Sites x samples of the pressure model, roughly.
double size_of(const AxisClamps& plan) {
  constexpr double kSample_mm = 10;
  double samples = 0;
  for (const AskedLine& line : plan.held()) {
    samples += line.length_mm / kSample_mm *
               (line.shape == pressure::LineShape::edge ? 1 : kCoupled);
  }
  return static_cast<double>(plan.sites.size()) * samples;
}

}  // namespace

template <typename Table>
auto* AxisCache::find(Table& made, const Asked& asked) {
  const auto known = std::ranges::find_if(made, [&](const auto& m) { return m.asked == asked; });
  return known == made.end() ? nullptr : &known->answer;
}

const AxisClamps* AxisCache::laid_out(const AxisQuestion& q, const Packing& packing) const {
  return find(laid_out_, {q.round, packing, q.setting.kind, q.glue.family, {}});
}

void AxisCache::keep(const AxisClamps& laid_out, const AxisQuestion& q) {
  laid_out_.push_back({{laid_out.round, laid_out.packing, q.setting.kind, q.glue.family, {}}, laid_out});
}

RoughCount AxisCache::of(const AxisClamps& plan, const AxisQuestion& q,
                               const PressNeed& need) {
  Asked asked{plan.round, plan.packing, q.setting.kind, q.glue.family, need};
  if (const RoughCount* known = find(counts_, asked)) {
    return *known;
  }
  work_ += kModelsOfCount * size_of(plan);
  counts_.push_back({std::move(asked), rough_count(plan, q, need, systems_)});
  return counts_.back().answer;
}

AxisClamps AxisCache::placed(AxisClamps plan, const AxisQuestion& q, const PressNeed& need,
                                   const std::vector<int>& on_line) {
  Asked asked{plan.round, plan.packing, q.setting.kind, q.glue.family, need};
  if (const AxisClamps* known = find(placed_, asked)) {
    return *known;
  }
  work_ += kModelsOfPlacing * size_of(plan);
  place_clamps(plan, q, need, on_line, systems_);
  placed_.push_back({std::move(asked), plan});
  if (placed_.size() > kMostPlaced) {
    placed_.pop_front();
  }
  return plan;
}

std::span<const geometry::BearingFace> AxisCache::bearing(std::span<const geometry::Solid> solids,
                                                          const geometry::Direction& axis,
                                                          const geometry::Tolerance& tolerance) {
  const auto known = std::ranges::find_if(bearing_, [&](const Bearing& b) {
    return b.axis == axis && b.max_angle_deg == tolerance.max_angle_deg;
  });
  if (known != bearing_.end()) {
    return known->faces;
  }
  bearing_.push_back({axis, tolerance.max_angle_deg, geometry::find_bearing_faces(solids, axis, tolerance)});
  return bearing_.back().faces;
}

}  // namespace planner::clamps::axis
