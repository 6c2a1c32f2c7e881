#include "planner/order/schedule_bounds.h"

#include <algorithm>

namespace planner::order {
namespace {

int seconds_in(ScheduleFacts& facts, const Moment& m, std::size_t limit_class) {
  int seconds = 0;
  for (const int b : m.blocks) {
    seconds += facts.block(b).class_seconds[limit_class];
  }
  return seconds;
}

// The class's joints are held, and some of them are still closed.
bool runs_out(ScheduleFacts& facts, const Moment& m, std::size_t limit_class) {
  const JointTime& limits = facts.classes()[limit_class];
  return limits.group >= 0 && m.held(limits) >= 0 && seconds_in(facts, m, limit_class) > 0;
}

// To take all clamps of these groups off.
int seconds_to_unsnug(const ScheduleProblem& problem, const Moment& m, std::uint32_t groups) {
  int seconds = 0;
  std::uint32_t rings = 0;
  for (std::size_t g = 0; g < m.age.size(); ++g) {
    if ((groups >> g & 1u) == 0 || !m.snug(g)) {
      continue;
    }
    seconds += problem.snug_s(static_cast<int>(g));
    const int ring = problem.groups[g].ring;
    if (m.whole_ring(g) && (rings >> ring & 1u) == 0) {
      seconds += problem.finish_s(ring);
      rings |= 1u << ring;
    }
  }
  return seconds;
}

// What takes everybody before all joints of these classes are open.
int seconds_before_open(ScheduleFacts& facts, const Moment& m, std::uint32_t classes) {
  const ScheduleProblem& problem = facts.problem();
  int joins = 0;
  for (const int b : m.blocks) {
    const std::uint32_t in_block = classes & facts.block(b).classes;
    joins += in_block == 0 ? 0 : facts.joins_to_open(b, in_block);
  }
  int seconds = joins * facts.least_joining_s();
  if (m.phase == Moment::Phase::to_check || (m.phase == Moment::Phase::lid_on && joins > 1)) {
    seconds += problem.inside_check_s;
  }
  std::uint32_t groups = 0;
  for (std::size_t c = 0; c < facts.classes().size(); ++c) {
    for (const int b : m.blocks) {
      groups |= (classes >> c & 1u) != 0 ? facts.block(b).waiting[c] : 0;
    }
  }
  return seconds + seconds_to_unsnug(problem, m, groups);
}

}  // namespace

bool enough_time(ScheduleFacts& facts, int slack_s, const Moment& m) {
  struct Due {
    int at = 0, seconds = 0, limit_class = -1;
  };
  std::vector<Due> due;
  for (const Spreading& job : m.jobs) {
    due.push_back({job.left_s, job.seconds, -1});
  }
  const std::vector<JointTime>& classes = facts.classes();
  for (std::size_t c = 0; classes.size() <= kMostClasses && c < classes.size(); ++c) {
    if (runs_out(facts, m, c)) {
      due.push_back({classes[c].total_s - slack_s - m.held(classes[c]), 0, static_cast<int>(c)});
    }
  }
  std::ranges::sort(due, {}, &Due::at);
  std::vector<int> work;  // longest first
  const auto add = [&work](int seconds) {
    work.insert(std::ranges::upper_bound(work, seconds, std::ranges::greater{}), seconds);
  };
  int together = 0;
  std::uint32_t opened = 0;
  for (const Due& d : due) {
    if (d.limit_class < 0) {
      add(d.seconds);
    } else {
      for (const int b : m.blocks) {
        std::ranges::for_each(facts.block(b).spreadings[static_cast<std::size_t>(d.limit_class)],
                              add);
      }
      opened |= 1u << d.limit_class;
      together = seconds_before_open(facts, m, opened);
    }
    if (least_seconds(work, facts.problem().people) > d.at - together) {
      return false;
    }
  }
  return true;
}

bool waits_end(ScheduleFacts& facts, const Moment& m) {
  if (!facts.any_waits()) {
    return true;
  }
  const ScheduleProblem& problem = facts.problem();
  int rest = (m.phase == Moment::Phase::open ? 0 : problem.inside_check_s) +
             seconds_to_unsnug(problem, m, ~0u);
  for (const Spreading& job : m.jobs) {
    rest += job.seconds;
  }
  for (const int b : m.blocks) {
    rest += (facts.graph().size(b) - 1) * problem.most_joining_s();
    for (const int seconds : facts.block(b).class_seconds) {
      rest += seconds;
    }
  }
  for (std::size_t g = 0; g < m.age.size(); ++g) {
    rest += m.snug(g) ? facts.waits()[g] + 60 : 0;
  }
  if (std::ranges::any_of(
          m.jobs, [rest](const Spreading& job) { return job.wait_s > rest - job.seconds; })) {
    return false;
  }
  for (std::size_t c = 0; c < facts.classes().size(); ++c) {
    const JointTime& limits = facts.classes()[c];
    const int wait = limits.wait_before_pressing_s();
    if (wait > 0 && runs_out(facts, m, c) &&
        wait + problem.pressing_s(limits) - m.held(limits) > rest) {
      return false;
    }
  }
  return true;
}

OrderCost least_cost(ScheduleFacts& facts, const Moment& m) {
  const ScheduleProblem& problem = facts.problem();
  OrderCost least = m.cost;
  std::vector<int> work;
  for (const Spreading& job : m.jobs) {
    work.push_back(job.seconds);
  }
  for (const int b : m.blocks) {
    for (const std::vector<int>& seconds : facts.block(b).spreadings) {
      work.insert(work.end(), seconds.begin(), seconds.end());
    }
    if (problem.ties == Ties::file_order_then_length) {
      const auto [wiped, disorder] = facts.graph().least_disorder(b);
      least.wiped_mm += wiped;
      least.out_of_order += disorder;
    }
  }
  std::ranges::sort(work, std::ranges::greater{});
  least.spent_s += least_seconds(work, problem.people);
  const int joins = problem.assembly.units - 1 - m.parted;
  least.spent_s += joins * facts.least_joining_s();
  return least;
}

int urgent_limit(ScheduleFacts& facts, int slack_s, const Moment& m) {
  if (facts.problem().people > 1 || facts.any_waits()) {
    return -kFar;
  }
  int limit = kFar;
  for (std::size_t c = 0; c < facts.classes().size(); ++c) {
    if (runs_out(facts, m, c)) {
      const JointTime& limits = facts.classes()[c];
      // A shared budget shrinks with every second the joint stays closed.
      limit =
          std::min(limit, limits.closed_s > 0 ? -kFar : limits.total_s - slack_s - m.held(limits));
    }
  }
  return limit;
}

}  // namespace planner::order
