// How far a stage's parts reach.
#pragma once
#include <array>
#include <span>

#include "planner/stage/stage_problem.h"

namespace planner::stage {

// A box round all parts of the stage, along x, y and z, mm. `bounds` by part. REQUIRES: a part.
struct StageReach {
  std::array<double, 3> lo{}, hi{};
  double size(std::size_t axis) const { return hi[axis] - lo[axis]; }
  std::array<double, 3> sizes() const { return {size(0), size(1), size(2)}; }
};
StageReach stage_reach(const StageWork& work, std::span<const geometry::Box> bounds);

}  // namespace planner::stage
