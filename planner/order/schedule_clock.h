// From the moves of the search to steps on the bench's clock.
#pragma once
#include "planner/order/schedule.h"
#include "planner/order/schedule_search.h"

namespace planner::order {

// Fills joins, steps, clocks, slack, makespan and the last moment to pull apart.
// REQUIRES: moves of a search of this problem and graph.
void fill_clock(const ScheduleProblem& problem, AssemblyGraph& graph, const ScheduleSearch& search,
                Schedule& schedule);

}  // namespace planner::order
