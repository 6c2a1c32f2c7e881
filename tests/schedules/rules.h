// Judges a schedule by the rules alone, with nothing of the solver.
#pragma once
#include <string>
#include <vector>

#include "planner/order/schedule.h"

namespace tests {

// Every rule the schedule breaks, in words; empty for a good one.
std::vector<std::string> broken_rules(const planner::order::ScheduleProblem& problem,
                                      const planner::order::Schedule& schedule);

}  // namespace tests
