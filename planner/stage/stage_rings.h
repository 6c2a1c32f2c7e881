// Which clamp rounds of a stage are snugged, checked and tightened together before it goes on.
#pragma once
#include <span>
#include <vector>

#include "planner/stage/stage_problem.h"
#include "planner/work/square.h"

namespace planner::stage {

// The job's rings, and which of them the stage closes: ascending indices.
struct ClosedRings {
  std::span<const work::Ring> all;
  std::span<const std::size_t> closed;
};

// Gives each demand its ring, and what its snugging alone holds. The rounds that press a ring's
// corners are tightened together once its diagonals are measured, and whatever comes after goes on a
// ring that is tight; rings that share a round are one. Each other round is tightened by itself once it
// is snug. Where the stage closes no ring, all rounds are tightened together after the checks. `checks`
// of the stage as a whole are made with the first ring's; diagonals come after flush.
std::vector<StageRing> stage_rings(std::span<const work::Joint> joints, const ClosedRings& rings,
                                   std::vector<StageCheck> checks, const work::Pace& pace,
                                   const work::GlueInUse& glue,
                                   std::vector<StageDemand>& demands);

}  // namespace planner::stage
