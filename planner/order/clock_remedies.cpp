#include "planner/order/clock_remedies.h"

#include <algorithm>

namespace planner::order {
namespace {

constexpr int kPlenty_s = 100'000;
constexpr double kTogether = 8;  // times the effort of one

// Solves the job again and again; what comes apart stays the same.
struct Trials {
  Effort effort;
  KnownAssemblies known;
  double most = known.work_done() + kTogether * effort.work;  // of the work of all of them

  bool hold(const ScheduleProblem& problem) const {
    const double left = most - known.work_done();
    return left > 0 && fits_in_time(problem, {effort.nodes, std::min(effort.work, left)}, known) == Fits::yes;
  }
};

// Least n of 0 .. most for which change(n) holds. REQUIRES: change(most) does, and more never
// hurts.
template <typename Change>
int least_that_holds(int most, const Change& change, const Trials& trials) {
  int no = -1, yes = most;
  while (yes - no > 1) {
    const int middle = no + (yes - no) / 2;
    (trials.hold(change(middle)) ? yes : no) = middle;
  }
  return yes;
}

std::optional<MoreGlueTime> more_time(const ScheduleProblem& problem, int short_s,
                                      const Trials& trials) {
  const auto open = [&](int more) { return with_more_time(problem, {more, 0}); };
  const auto total = [&](int more) { return with_more_time(problem, {0, more}); };
  const auto both = [&](int more) { return with_more_time(problem, {more, more}); };
  if (trials.hold(open(kPlenty_s))) {
    return MoreGlueTime{least_that_holds(kPlenty_s, open, trials), 0};
  }
  if (trials.hold(total(kPlenty_s))) {
    return MoreGlueTime{0, least_that_holds(kPlenty_s, total, trials)};
  }
  if (!trials.hold(both(short_s))) {
    return std::nullopt;
  }
  const int needed = least_that_holds(short_s, both, trials);
  return MoreGlueTime{needed, needed};
}

}  // namespace

ScheduleProblem with_spread_percent(ScheduleProblem problem, int percent) {
  for (JointTime& joint : problem.joints) {
    joint.spread_s = std::max(1, (joint.spread_s * percent + 99) / 100);
  }
  return problem;
}

ScheduleProblem with_more_time(ScheduleProblem problem, const MoreGlueTime& more) {
  for (JointTime& joint : problem.joints) {
    joint.open_s += more.open_s;
    joint.total_s += more.total_s;
    joint.closed_s += joint.closed_s > 0 ? more.total_s : 0;
  }
  return problem;
}

ScheduleProblem with_double_spread(ScheduleProblem problem) {
  const auto joints = static_cast<int>(problem.joints.size());
  for (JointTime& joint : problem.joints) {
    joint.spread_s = (joint.spread_s + 1) / 2;
  }
  for (std::size_t j = 0; j < static_cast<std::size_t>(joints); ++j) {
    problem.joints.push_back(problem.joints[j]);
    problem.joints.back().next_s = 0;  // it is started once
    problem.assembly.joints.push_back(problem.assembly.joints[j]);
    if (!problem.assembly.joint_likeness.empty()) {
      problem.assembly.joint_likeness.push_back(problem.assembly.joint_likeness[j]);
    }
  }
  for (SnugRound& round : problem.groups) {
    const std::vector<int> once = round.closed_first;
    for (int joint : once) {
      round.closed_first.push_back(joint + joints);
    }
  }
  return problem;
}

ClockRemedies clock_remedies(const ScheduleProblem& problem, const Schedule& schedule,
                             const Effort& effort, KnownAssemblies known) {
  const Trials trials{effort, std::move(known)};
  ClockRemedies result;
  ScheduleProblem helped = problem;
  while (helped.people < work::kMostPeople &&
         (result.people.empty() || result.people.back().slack_s < 0) &&
         !base::stop_requested(problem.assembly.stop)) {
    ++helped.people;
    const Schedule s = solve_schedule(helped, effort, trials.known);
    result.people.push_back({helped.people, s.slack_s});
  }
  result.glue = more_time(problem, -schedule.slack_s, trials);
  if (trials.hold(with_spread_percent(problem, 0))) {
    result.spread_percent =
        100 - least_that_holds(
                  100, [&](int less) { return with_spread_percent(problem, 100 - less); }, trials);
  }
  return result;
}

}  // namespace planner::order
