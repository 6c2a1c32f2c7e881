// Which clamp rounds of a stage are snugged, checked and tightened together before it goes on.
#pragma once
#include <span>
#include <vector>

#include "planner/stage/stage_problem.h"
#include "planner/work/square.h"

namespace planner::stage {

// Gives each demand its ring, and what its snugging alone holds. `ring`: the ring that the stage
// closes, where it does: the rounds that press its corners are tightened together once `checks` are
// made, and whatever comes after goes on a ring that is tight; each other round is tightened by
// itself once it is snug. Without it all rounds are tightened together after the checks.
std::vector<StageRing> stage_rings(std::span<const work::Joint> joints, const work::Ring* ring,
                                   std::vector<StageCheck> checks, const work::GlueInUse& glue,
                                   std::vector<StageDemand>& demands);

}  // namespace planner::stage
