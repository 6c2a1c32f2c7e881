// What to do when the rack is short.
#pragma once
#include <vector>

#include "planner/clamps/layout/stage_clamps.h"

namespace planner::clamps::layout {

// Changes that help, each worked out for this stage: gluing one axis after another, clamps to
// borrow. (Deeper stock under the jaws is part of every plan that needs it.) Up to three, least
// trouble first; none where nothing helps. REQUIRES: the rack isn't unlimited; `stage` lacks clamps
// or doesn't hold.
std::vector<plan::WayOut> clamp_ways_out(const ClampProblem& problem, const StageAxes& stage,
                                         axis::AxisCache& cache);

}  // namespace planner::clamps::layout
