// What presses without clamps: pins, nails and screws, weights and the bag; and when they go on.
#pragma once
#include <vector>

#include "planner/stage/plan_stage.h"

namespace planner::stage {

// A row a joint of the stage that is fastened. Fasteners keep off the job's saw lines, and stand half
// their distance from the row's ends. By joint.
std::vector<plan::Fastening> fastenings_of(const StageInput& input, const StageWork& work);

// The stage's weights and its bag, each once.
std::vector<plan::Loading> loadings_of(const StageInput& input, const StageWork& work);

// Their rounds behind those with clamps: a sheet's fasteners are one, and go in once all clamps are
// tight and the diagonals are measured. Where nothing is clamped, a round without clamps, last of
// all, waits for the other joints and is checked. Adds a ring to `rings` for each.
void add_clampless(const plan::Stage& means, const StageWork& work, const work::Pace& pace,
                   std::vector<StageDemand>& demands, std::vector<StageRing>& rings);

}  // namespace planner::stage
