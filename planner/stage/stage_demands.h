// The clamp rounds of a layout as the schedule sees them.
#pragma once
#include <span>
#include <vector>

#include "planner/clamps/layout/clamp_layout.h"
#include "planner/stage/stage_problem.h"

namespace planner::stage {

using ClampGroup = std::vector<std::size_t>;  // of rounds that go on as one: indices of the layout

// Rounds that press one joint between them (a mitre, along two axes) go on as one; those without
// clamps not at all.
std::vector<ClampGroup> together(const clamps::layout::ClampLayout& layout,
                                 std::span<const work::Joint> joints);

// Of each group; `after` is left empty. Corner clamps take the time of the round that holds their
// corner.
std::vector<StageDemand> demands_of(const clamps::layout::ClampLayout& layout,
                                    std::span<const ClampGroup> groups,
                                    std::span<const work::Joint> joints, const work::Pace& pace,
                                    std::span<const plan::CornerClamp> corners);

// One clamp of those on an axis, on average over their kinds.
int snug_seconds(std::span<const plan::PlannedClamp> clamps, const work::Pace& pace);

}  // namespace planner::stage
