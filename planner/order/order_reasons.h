// Why this order: where a joint's time goes, and what the next best order would cost.
#pragma once
#include <optional>
#include <vector>

#include "planner/order/schedule.h"

namespace planner::order {

// What fills the time from the start of a joint's spreading to the end of one of its limits.
// Spreading side by side counts once; the parts add up to used_s.
struct TimeSpent {
  int joint = 0;
  bool open = true;  // the open limit, else the total
  int limit_s = 0, used_s = 0;
  int spreading_s = 0, joining_s = 0, snugging_s = 0, checking_s = 0, tightening_s = 0;
  int waiting_s = 0;
  std::vector<int> joins;   // that lie between, indices into the schedule's joins
  std::vector<int> groups;  // snugged between
};

// For the limit of that joint that has less left; of a shared budget the total is told.
TimeSpent time_spent(const ScheduleProblem& problem, const Schedule& schedule, int joint);

// The best schedule whose order differs: at least one of the schedule's joins is not made. Nothing
// where there is no other order. Ties: the join left out that comes last.
struct OtherOrder {
  Schedule schedule;
  int without = 0;  // index of the join that it does not make
};
std::optional<OtherOrder> next_best_order(const ScheduleProblem& problem, const Schedule& schedule,
                                          const Effort& effort = Effort::trial());

}  // namespace planner::order
