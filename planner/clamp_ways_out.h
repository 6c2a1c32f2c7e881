// What to do when the rack is short.
#pragma once
#include <vector>

#include "planner/stage_rounds.h"

namespace planner {

// Changes that help, each planned anew for this stage: pads and strips of deeper stock, clamps to
// borrow. Up to three, least trouble first; none where nothing helps.
// REQUIRES: the rack isn't unlimited; `stage` lacks clamps or doesn't hold.
std::vector<WayOut> clamp_ways_out(const ClampProblem& problem, const StageRounds& stage);

}  // namespace planner
