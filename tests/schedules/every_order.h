// All orders of a glue-up, tried one by one.
#pragma once
#include <vector>

#include "planner/order/schedule.h"

namespace tests {

// Every sequence of joins, forwards, of touching groups that one movement brings together, each
// with its clock solved by itself.
class EveryOrder {
 public:
  explicit EveryOrder(const planner::order::ScheduleProblem& problem);

  int best_slack_s() const { return best_s_; }  // meaningless where orders() is 0
  int orders() const { return orders_; }        // that can be carried out

 private:
  bool joins(const planner::base::UnitSet& a, const planner::base::UnitSet& b) const;
  void extend();

  planner::order::ScheduleProblem problem_;
  std::vector<planner::base::UnitSet> groups_;
  int best_s_ = -1'000'000, orders_ = 0;
};

}  // namespace tests
