// Why this order: where the tightest joint's time goes and what the next best order costs; or why
// there is none.
#pragma once
#include <vector>

#include "planner/stage/stage_problem.h"

namespace planner::stage {

// Solves the stage again for the next best order. REQUIRES: schedule solves the problem and is not
// impossible.
std::vector<plan::OrderReason> order_reasons(const order::ScheduleProblem& problem,
                                             const order::Schedule& schedule,
                                             const StageWork& work);

// Why the stage has no order. Of a locked group: its parts, and for pairs that touch in it the only
// ways apart, which contradict each other. REQUIRES: the schedule of the problem is impossible.
plan::VerdictReason impossible_reason(const order::ScheduleProblem& problem,
                                      const order::Schedule& schedule, const StageWork& work);

}  // namespace planner::stage
