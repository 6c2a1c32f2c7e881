// Why this order, in words: where the tightest joint's time goes and what the next best order
// costs.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "planner/stage/stage_problem.h"

namespace planner::stage {

// Sentences, lower case, no full stop. Solves the stage again for the next best order.
// REQUIRES: schedule solves the problem and is not impossible.
std::vector<std::string> order_reasons(const order::ScheduleProblem& problem,
                                       const order::Schedule& schedule, const StageWork& work,
                                       std::span<const work::Joint> joints, const work::Job& job);

// Why the stage has no order, lower case, no full stop. Of a locked group: its parts, and for pairs
// that touch in it the only ways apart, which contradict each other. REQUIRES: the schedule of the
// problem is impossible.
std::string impossible_reason(const order::ScheduleProblem& problem,
                              const order::Schedule& schedule, const StageWork& work,
                              const work::Job& job);

}  // namespace planner::stage
