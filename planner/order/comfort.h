// When an order leaves time enough to work without hurry.
#pragma once

namespace planner::order {

// A limit is kept in comfort with a fifth of it to spare (our choice). Both in seconds.
constexpr bool comfortable(double slack_s, double limit_s) {
  constexpr double kComfortableShare = 0.2;
  return slack_s >= kComfortableShare * limit_s;
}

}  // namespace planner::order
