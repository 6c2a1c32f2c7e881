// What would make one go hold its time: a helper, a slower glue, quicker spreading, other air. Each
// is solved for this job, none guessed.
#pragma once
#include <vector>

#include "planner/order/stages.h"
#include "planner/stage/plan_stage.h"

namespace planner::stage {

// Empty when the stage is in time. `orders` tells of a join that no staging avoids.
// REQUIRES: planned is not impossible.
std::vector<plan::WayOut> clock_ways_out(const StageInput& input, const PlannedStage& planned,
                                         const order::StageOrders& orders);

// Where it is too cold for the glue: one that sets so cold, and warmth. Else empty.
std::vector<plan::WayOut> cold_ways_out(const StageInput& input);

// Where every order lifts more than the crew can: how many more people can. Empty where none of up
// to four help.
std::vector<plan::WayOut> lifting_ways_out(const order::ScheduleProblem& problem);

}  // namespace planner::stage
