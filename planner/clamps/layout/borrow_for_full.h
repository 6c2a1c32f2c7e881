// What it would take to press fully where the rack only holds.
#pragma once
#include <optional>

#include "planner/clamps/layout/stage_clamps.h"

namespace planner::clamps::layout {

// Every held axis reaches what is asked of it for full pressure.
bool presses_fully(const StageAxes& stage);

// More clamps of the rows there are, so that every axis is pressed fully; nothing where none of
// those do. REQUIRES: the rack isn't unlimited; `stage` holds.
std::optional<FullerRack> borrow_for_full(const ClampProblem& problem, const StageAxes& stage,
                                          axis::AxisCache& cache);

}  // namespace planner::clamps::layout
