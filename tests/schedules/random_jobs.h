// Small random glue-ups, the same for the same number on every machine.
#pragma once
#include "planner/order/schedule.h"

namespace tests {

struct RandomJobSize {
  int units = 4, joints = 4, people = 1;
};

planner::order::ScheduleProblem random_job(unsigned number, const RandomJobSize& at_most);

}  // namespace tests
