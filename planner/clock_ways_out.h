// What would make one go hold its time: a helper, a slower glue, quicker spreading. Each is solved
// for this job, none guessed.
#pragma once
#include <vector>

#include "planner/plan_stage.h"
#include "planner/stages.h"

namespace planner {

// Empty when the stage is in time. `orders` tells of a join that no staging avoids.
// REQUIRES: planned is not impossible.
std::vector<WayOut> clock_ways_out(const StageInput& input, const PlannedStage& planned,
                                   const StageOrders& orders);

// Where every order lifts more than the crew can: how many more people can. Empty where none of up
// to four help.
std::vector<WayOut> lifting_ways_out(const ScheduleProblem& problem);

}  // namespace planner
