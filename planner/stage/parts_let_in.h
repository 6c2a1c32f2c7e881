// Clamp rounds that wait for parts which their bars would bar the way.
#pragma once
#include <span>
#include <vector>

#include "planner/stage/stage_demands.h"

namespace planner::stage {

// Where a part comes to its place past a clamp that is on already and stands in its way: that clamp's
// round waits for the part, in its `waits_for`. One at a time; false where every part comes in.
bool let_parts_in(const order::Schedule& schedule, const order::ScheduleProblem& problem,
                  const StageWork& work, std::span<const work::Joint> joints,
                  std::span<const geometry::Box> bounds, const work::Shop& shop, const clamps::layout::ClampLayout& layout,
                  std::span<const ClampGroup> groups, std::vector<StageDemand>& demands);

}  // namespace planner::stage
