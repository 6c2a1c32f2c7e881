#include "planner/order/comfort.h"

namespace planner::order {

bool comfortable(const ScheduleProblem& problem, const Schedule& schedule) {
  for (std::size_t j = 0; j < schedule.clocks.size(); ++j) {
    const JointTime& time = problem.joints[j];
    const JointClock& used = schedule.clocks[j];
    if (!comfortable(time.open_s - used.used_open_s, time.open_s) ||
        !comfortable(time.total_s - used.used_total_s, time.total_s) ||
        (time.closed_s > 0 && !comfortable(used.slack_s, time.closed_s))) {
      return false;
    }
  }
  return true;
}

}  // namespace planner::order
