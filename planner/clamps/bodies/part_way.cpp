#include "planner/clamps/bodies/part_way.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "planner/clamps/bodies/clamp_bodies.h"

namespace planner::clamps::bodies {
namespace {

using Range = std::array<double, 2>;
using Ranges = std::array<Range, 3>;

Ranges spans_of(const geometry::Box& box) {
  Ranges spans;
  for (std::size_t k = 0; k < 3; ++k) {
    spans[k] = {box.lo[k], box.hi[k]};
  }
  return spans;
}

bool clash(const Ranges& a, const Ranges& b) {
  constexpr double kNone_mm = 0.5;
  return std::ranges::all_of(std::array{0, 1, 2}, [&](int axis) {
    const auto k = static_cast<std::size_t>(axis);
    return std::min(a[k][1], b[k][1]) - std::max(a[k][0], b[k][0]) > kNone_mm;
  });
}

// The room that the part passes through on its way.
std::optional<Ranges> swept(Ranges part, const geometry::Direction& comes) {
  constexpr double kFar_mm = 1e5;
  for (std::size_t k = 0; k < 3; ++k) {
    if (std::abs(comes[k]) > 1 - 1e-6) {
      part[k][comes[k] > 0 ? 0 : 1] = comes[k] > 0 ? -kFar_mm : kFar_mm;
      return part;
    }
  }
  return std::nullopt;
}

}  // namespace

bool bars_the_way(const plan::PlannedClamp& clamp, const work::Shop& shop,
                  const geometry::Box& part, const geometry::Direction& comes) {
  const Ranges there = spans_of(part);
  const std::optional<Ranges> way = swept(there, comes);
  if (!clamp.round.empty() || !way) {
    return false;
  }
  const auto body = body_of(standing_clamp(clamp, shop), clamp.bar_side);
  return std::ranges::any_of(body, [&](const geometry::Box& box) {
    return clash(spans_of(box), *way) && !clash(spans_of(box), there);
  });
}

}  // namespace planner::clamps::bodies
