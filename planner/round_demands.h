// The clamp rounds of a layout as the schedule sees them.
#pragma once
#include <span>
#include <vector>

#include "planner/clamp_layout.h"
#include "planner/stage_problem.h"

namespace planner {

using ClampGroup = std::vector<std::size_t>;  // of rounds that go on as one: indices of the layout

// Rounds that press one joint between them (a mitre, along two axes) go on as one; those without
// clamps not at all.
std::vector<ClampGroup> together(const ClampLayout& layout, std::span<const Joint> joints);

// Of each group; `after` is left empty. Corner clamps take the time of the round that holds their
// corner.
std::vector<RoundDemand> demands_of(const ClampLayout& layout, std::span<const ClampGroup> groups,
                                    std::span<const Joint> joints, const Pace& pace,
                                    std::span<const Locator> corners);

}  // namespace planner
