// What to do when the rack is short.
#pragma once
#include <vector>

#include "planner/stage_rounds.h"

namespace planner {

// Changes that help, each worked out for this stage: gluing one axis after another, clamps to
// borrow. (Deeper stock under the jaws is part of every plan that needs it.) Up to three, least
// trouble first; none where nothing helps. REQUIRES: the rack isn't unlimited; `stage` lacks clamps
// or doesn't hold.
std::vector<WayOut> clamp_ways_out(const ClampProblem& problem, const StageRounds& stage);

}  // namespace planner
