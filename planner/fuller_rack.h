// What it would take to press fully where the rack only holds.
#pragma once
#include <optional>

#include "planner/stage_rounds.h"

namespace planner {

// Every held axis reaches what is asked of it for full pressure.
bool presses_fully(const StageRounds& stage);

// More clamps of the rows there are, so that every axis is pressed fully; nothing where none of
// those do. REQUIRES: the rack isn't unlimited; `stage` holds.
std::optional<FullerRack> fuller_rack(const ClampProblem& problem, const StageRounds& stage);

}  // namespace planner
