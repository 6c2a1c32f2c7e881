// When an order leaves time enough to work without hurry.
#pragma once
#include "planner/order/schedule.h"

namespace planner::order {

// Of one limit: a fifth of it to spare, and a minute, or half of it where that is less (our choice).
// Both in seconds.
constexpr bool comfortable(double slack_s, double limit_s) {
  constexpr double kShare = 0.2, kMinute_s = 60, kHalf = 0.5;
  const double minute = kMinute_s < kHalf * limit_s ? kMinute_s : kHalf * limit_s;
  return slack_s >= kShare * limit_s && slack_s >= minute;
}

// Of a schedule: every joint's open and total time, and closed time where there is one budget.
bool comfortable(const ScheduleProblem& problem, const Schedule& schedule);

}  // namespace planner::order
