#include "planner/order_reasons.h"

#include <algorithm>
#include <array>

namespace planner {
namespace {

// Comes down, sideways or up, for a group that leaves along `leaving`.
int rise(const geometry::Direction& leaving, const geometry::Direction& up) {
  const double along = dot(leaving, up);
  return along > 0.5 ? -1 : along < -0.5 ? 1 : 0;
}

}  // namespace

TimeSpent time_spent(const ScheduleProblem& problem, const Schedule& schedule, int joint) {
  const auto j = static_cast<std::size_t>(joint);
  const JointClock& clock = schedule.clocks[j];
  const JointTime& limits = problem.joints[j];
  TimeSpent t;
  t.joint = joint;
  t.open = limits.closed_s == 0 &&
           limits.open_s - clock.used_open_s <= limits.total_s - clock.used_total_s;
  t.limit_s = t.open ? limits.open_s : limits.total_s;
  t.used_s = t.open ? clock.used_open_s : clock.used_total_s;
  const int end = t.open ? clock.joined_s : clock.held_s;
  t.spreading_s = t.used_s;
  for (const PlannedStep& step : schedule.steps) {
    if (step.kind == StepKind::spread || step.start_s < clock.spread_start_s || step.end_s > end) {
      continue;
    }
    const int seconds = step.end_s - step.start_s;
    t.spreading_s -= seconds;
    switch (step.kind) {
      case StepKind::join:
        t.joining_s += seconds;
        t.joins.push_back(step.join);
        break;
      case StepKind::snug:
        t.snugging_s += seconds;
        t.groups.push_back(step.group);
        break;
      case StepKind::check:
        t.checking_s += seconds;
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
  for (int m = static_cast<int>(schedule.joins.size()) - 1; m >= 0; --m) {
    const PlannedJoin& join = schedule.joins[static_cast<std::size_t>(m)];
    ScheduleProblem other = problem;
    other.joins_left_out = {{join.moving, join.staying}};
    Schedule s = solve_schedule(other, effort);
    if (s.status == Proof::impossible) {
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

geometry::Direction bench_up(const ScheduleProblem& problem, const Schedule& schedule) {
  const std::array<geometry::Direction, 6> ups{
      {{0, 0, 1}, {0, 1, 0}, {1, 0, 0}, {-1, 0, 0}, {0, -1, 0}, {0, 0, -1}}};
  if (problem.closing_unit >= 0 && !schedule.joins.empty()) {
    const PlannedJoin& last = schedule.joins.back();
    const Removal& r = problem.assembly.removals[static_cast<std::size_t>(last.removal)];
    const bool lid = last.moving == UnitSet::of(problem.closing_unit);
    return lid ? r.direction : -r.direction;
  }
  int least = 0;
  geometry::Direction best = ups[0];
  for (const geometry::Direction& up : ups) {
    int sum = 0;
    for (const PlannedJoin& join : schedule.joins) {
      const Removal& r = problem.assembly.removals[static_cast<std::size_t>(join.removal)];
      sum += !r.folds && rise(r.direction, up) > 0 ? 1 : 0;
    }
    if (up == ups[0] || sum < least) {
      least = sum;
      best = up;
    }
  }
  return best;
}

bool wants_hand(const ScheduleProblem& problem, const PlannedJoin& join,
                const geometry::Direction& up) {
  const AssemblyProblem& a = problem.assembly;
  for (std::size_t d = 0; d < a.removals.size(); ++d) {
    if (!a.removals[d].folds && rise(a.removals[d].direction, up) < 0) {
      continue;
    }
    bool free = true;
    for (int i = join.moving.lowest(); i >= 0 && free; i = join.moving.next(i)) {
      for (int j = join.staying.lowest(); j >= 0; j = join.staying.next(j)) {
        free = free && a.leave(static_cast<int>(d), i, j) != kRefused;
      }
    }
    if (free) {
      return true;
    }
  }
  return false;
}

}  // namespace planner
