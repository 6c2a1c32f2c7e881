// What of a stage is looked at while its glue still moves: between snug and tight, in this order.
#pragma once
#include <vector>

#include "planner/plan/plan.h"
#include "planner/stage/stage_problem.h"
#include "planner/work/square.h"

namespace planner::stage {

// `closes_ring`: the stage closes a ring, whose diagonals are measured (stage_rings.h). `bounds` by
// part. Which check is whose (common practice):
// - flush: edge joints, half-laps and bridles, and whatever else joins faces that must lie in one
//   plane in a flat frame; a few seconds a joint;
// - a try square where boards meet at an angle and no ring closes;
// - wind: what is flat (its least side at most a third of the next) and more than a panel or a
//   slab.
std::vector<StageCheck> stage_checks(const StageWork& work, std::span<const work::Joint> joints,
                                     std::span<const geometry::Box> bounds, bool closes_ring,
                                     const work::Pace& pace);

// Seconds that a look at diagonals takes: less where the ring is small.
int ring_check_s(const work::Ring& ring, const work::Pace& pace);

}  // namespace planner::stage
