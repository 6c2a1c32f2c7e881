// What would make one go hold its time, each worked out by solving the changed job again.
#pragma once
#include <optional>
#include <vector>

#include "planner/order/schedule.h"

namespace planner::order {

struct WithPeople {
  int people = 0, slack_s = 0;
};

// The least that a glue must give more; where one limit alone is enough, the other stays.
struct MoreGlueTime {
  int open_s = 0, total_s = 0;
};

struct ClockRemedies {
  // With one more person and so on, up to four or the first number that holds.
  std::vector<WithPeople> people;
  std::optional<MoreGlueTime> glue;
  // The spreading times must come down to this share of the pace's, in percent (whole, the largest
  // that holds); nothing where spreading in no time would not be enough.
  std::optional<int> spread_percent;
};

// REQUIRES: schedule = solve_schedule(problem), negative slack, not impossible.
ClockRemedies clock_remedies(const ScheduleProblem& problem, const Schedule& schedule,
                             const Effort& effort = Effort::trial(), KnownAssemblies known = {});

// The problem with spreading times at this share, rounded up to whole seconds, at least one.
ScheduleProblem with_spread_percent(ScheduleProblem problem, int percent);
// Each joint as two, one a face, each spread in half the time (rounded up) by whoever is free. The
// second half of joint j is joint j + joints.size().
ScheduleProblem with_double_spread(ScheduleProblem problem);
// The problem with longer limits; a shared budget's closed time grows with the total.
ScheduleProblem with_more_time(ScheduleProblem problem, const MoreGlueTime& more);

}  // namespace planner::order
