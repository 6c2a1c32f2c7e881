// The solved schedules of tests/reference/schedules.json as problems of ours.
#pragma once
#include <string>
#include <vector>

#include "planner/order/schedule.h"

namespace tests {

struct SolvedInstance {
  std::string name;
  int people = 1;
  planner::order::ScheduleProblem problem;
  int slack_s = 0, makespan_s = 0;
  bool proven = false;  // by the reference solver; else its best known
};

// In the file's order, one person before two.
std::vector<SolvedInstance> solved_instances();

}  // namespace tests
