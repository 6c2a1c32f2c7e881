// Whether pushes can hold a body still.
#pragma once
#include <array>
#include <span>

namespace planner::work {

// A force and its moment about some point: x y z each.
using Wrench = std::array<double, 6>;

struct PointForce {
  Wrench wrench{};
  double effort = 0;  // what one of it counts for
};

// True where the pushes, never pulling and with no more than `most_effort` in all, add up to
// `wanted`. To 1e-7 of its size. Scale the moments' lengths to about 1 beforehand. Ends always.
// REQUIRES: efforts not negative.
bool can_add_up(std::span<const PointForce> pushes, const Wrench& wanted, double most_effort);

}  // namespace planner::work
