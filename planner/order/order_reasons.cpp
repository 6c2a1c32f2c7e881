#include "planner/order/order_reasons.h"

#include <algorithm>

namespace planner::order {
TimeSpent time_spent(const ScheduleProblem& problem, const Schedule& schedule, int joint) {
  const auto j = static_cast<std::size_t>(joint);
  const JointClock& clock = schedule.clocks[j];
  const JointTime& limits = problem.joints[j];
  TimeSpent t;
  t.joint = joint;
  t.open = limits.closed_s == 0 && open_binds(limits, clock);
  t.limit_s = t.open ? limits.open_s : limits.total_s;
  t.used_s = t.open ? clock.used_open_s : clock.used_total_s;
  const int end = t.open ? clock.joined_s : clock.held_s;
  t.spreading_s = t.used_s;
  for (const PlannedStep& step : schedule.steps) {
    if (step.kind == plan::StepKind::spread || step.start_s < clock.spread_start_s ||
        step.end_s > end) {
      continue;
    }
    const int seconds = step.end_s - step.start_s;
    t.spreading_s -= seconds;
    switch (step.kind) {
      case plan::StepKind::join:
        t.joining_s += seconds;
        t.joins.push_back(step.join);
        break;
      case plan::StepKind::snug:
        t.snugging_s += seconds;
        t.groups.push_back(step.group);
        break;
      case plan::StepKind::check:
        t.checking_s += seconds;
        break;
      case plan::StepKind::tighten:
        t.tightening_s += seconds;
        break;
      default:
        t.waiting_s += seconds;
        break;
    }
  }
  return t;
}

std::optional<OtherOrder> next_best_order(const ScheduleProblem& problem, const Schedule& schedule,
                                          const Effort& effort) {
  const auto steps = [&problem](int slack) {
    return slack / problem.step_s - (slack % problem.step_s < 0 ? 1 : 0);
  };
  std::optional<OtherOrder> best;
  const KnownAssemblies known;
  const base::Stop* stop = problem.assembly.stop;
  for (int m = static_cast<int>(schedule.joins.size()) - 1; m >= 0 && !base::stop_requested(stop);
       --m) {
    const PlannedJoin& join = schedule.joins[static_cast<std::size_t>(m)];
    ScheduleProblem other = problem;
    other.joins_left_out = {{join.moving, join.staying}};
    Schedule s = solve_schedule(other, effort, known);
    if (s.status == plan::Proof::impossible) {
      continue;
    }
    const bool better = !best || steps(s.slack_s) > steps(best->schedule.slack_s) ||
                        (steps(s.slack_s) == steps(best->schedule.slack_s) &&
                         s.makespan_s < best->schedule.makespan_s);
    if (better) {
      best = OtherOrder{std::move(s), m};
    }
  }
  return best;
}

}  // namespace planner::order
