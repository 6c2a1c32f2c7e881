// Which units of a schedule's problem may stand for one another.
#pragma once
#include "planner/order/schedule.h"

namespace planner::order {

// The problem's assembly with joints and units told apart where the clock tells them apart: by
// spreading, limits, rounds, weights, the closing part, joins given in advance.
AssemblyProblem with_likeness(const ScheduleProblem& problem);

}  // namespace planner::order
