// The slow twin of the scheduler: tries every order, forwards, with no bound, no memory and none of
// the solver's code. For a handful of units and joints.
#pragma once
#include <optional>
#include <set>

#include "planner/order/schedule.h"

namespace tests {

struct TwinAnswer {
  std::optional<int> slack_s;  // nothing: no order at all
  int makespan_s = 0;          // least among those of most slack
  // Each way in which the last join can put the whole together: the group with unit 0.
  std::set<planner::base::UnitSet> last_joins;
};

// REQUIRES: no least waits, step_s 1, one limit class's worth of patience: about 5 units.
TwinAnswer solve_by_trying_all(const planner::order::ScheduleProblem& problem);

}  // namespace tests
