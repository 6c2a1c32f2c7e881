#include "planner/order/schedule_moves.h"

#include <algorithm>

namespace planner::order {
namespace {

// False where a job's time runs out meanwhile.
bool advance(Moment& m, int seconds) {
  for (std::vector<int>* ages : {&m.age, &m.tight}) {
    for (int& age : *ages) {
      age += age >= 0 ? seconds : 0;
    }
  }
  for (Spreading& job : m.jobs) {
    job.left_s -= seconds;
    job.wait_s = std::max(0, job.wait_s - seconds);
    if (job.left_s < job.seconds) {
      return false;
    }
  }
  return true;
}

bool follow_window(const SpreadWindow& window, Moment& m) {
  for (const PlacedSpreading& placed : window.placed) {
    const auto job = std::ranges::find(m.jobs, placed.what);
    if (job == m.jobs.end()) {
      return false;
    }
    m.jobs.erase(job);
  }
  m.cost.spent_s += window.length_s;
  return advance(m, window.length_s);
}

int seconds_of(ScheduleFacts& facts, const Barrier& barrier, const Moment& m) {
  const ScheduleProblem& problem = facts.problem();
  switch (barrier.kind) {
    case Barrier::Kind::unsnug:
      return unsnug_s(problem, barrier.group, m) + barrier.pause_s;
    case Barrier::Kind::inside_check:
      return problem.inside_check_s;
    case Barrier::Kind::part:
      break;
  }
  const auto& splits = facts.graph().splits(barrier.block);
  return problem.joining_s(splits[static_cast<std::size_t>(barrier.split)].joints);
}

bool release(const ScheduleProblem& problem, int slack_s, int joint, int join_s, Moment& m) {
  const JointTime& t = problem.joints[static_cast<std::size_t>(joint)];
  // The time since it was held includes the join.
  const int closed = t.group < 0 ? 0 : m.held(t) - join_s;
  const std::optional<int> left = spreading_left_s(t, slack_s, closed, join_s);
  if (!left || *left < t.spread_s) {
    return false;
  }
  const int wait = t.wait_before_pressing_s() + problem.pressing_s(t) - closed - join_s;
  const Spreading job{t.spread_s, *left, std::max(0, wait)};
  m.jobs.insert(std::ranges::upper_bound(m.jobs, job), job);
  return true;
}

// `seconds`: of the barrier.
void unsnug(const ScheduleProblem& problem, const Barrier& barrier, int seconds, Moment& m) {
  const auto g = static_cast<std::size_t>(barrier.group);
  if (m.whole_ring(g)) {
    for (std::size_t h = 0; h < m.tight.size(); ++h) {
      if (problem.groups[h].ring == problem.groups[g].ring) {
        m.tight[h] = seconds - problem.tightening_after_s(static_cast<int>(h));
      }
    }
  }
  m.age[g] = problem.snug_s(barrier.group) + barrier.pause_s;
  m.cost.spent_s += barrier.pause_s;
}

bool part(ScheduleFacts& facts, int slack_s, const Barrier& barrier, Moment& m) {
  AssemblyGraph& graph = facts.graph();
  const int join_s = seconds_of(facts, barrier, m);
  const auto index = static_cast<std::size_t>(barrier.split);
  const Split& split = graph.splits(barrier.block)[index];
  for (const int j : split.joints) {
    if (!release(facts.problem(), slack_s, j, join_s, m)) {
      return false;
    }
  }
  m.opened |= facts.block(barrier.block).needs[index].opens;
  for (std::size_t g = 0; g < m.age.size(); ++g) {
    // All its joints were closed before this join: it could have been snug by then.
    m.cost.late_snug += !m.snug(g) && (m.opened >> g & 1u) == 0 ? 1 : 0;
  }
  m.blocks.erase(std::ranges::find(m.blocks, barrier.block));
  for (const int half : {split.first_id, split.second_id}) {
    if (graph.size(half) > 1) {
      m.blocks.insert(std::ranges::upper_bound(m.blocks, half), half);
    }
  }
  m.cost.spent_s += join_s;
  m.cost.wiped_mm += split.wiped_mm;
  m.cost.out_of_order += split.out_of_order;
  m.cost.moved += (split.moving == 0 ? split.first : split.second).count() - 1;
  ++m.parted;
  if (m.phase == Moment::Phase::lid_on) {
    m.phase = Moment::Phase::to_check;
  }
  return true;
}

}  // namespace

std::optional<int> spreading_left_s(const JointTime& t, int slack_s, int closed_s, int join_s) {
  int open = std::min(t.open_s - slack_s, t.total_s - slack_s - closed_s);
  if (t.closed_s > 0) {
    const std::int64_t rest = t.closed_s - slack_s - closed_s;
    if (rest < 0) {
      return std::nullopt;
    }
    open = static_cast<int>(std::min<std::int64_t>(open, t.open_s * rest / t.closed_s));
  }
  return open - join_s;
}

int unsnug_s(const ScheduleProblem& problem, int group, const Moment& m) {
  const auto g = static_cast<std::size_t>(group);
  return problem.snug_s(group) + (m.whole_ring(g) ? problem.finish_s(problem.groups[g].ring) : 0);
}

Moment last_moment(ScheduleFacts& facts) {
  const ScheduleProblem& problem = facts.problem();
  Moment m;
  if (problem.assembly.units > 1) {
    m.blocks = {facts.graph().whole()};
  }
  m.age.assign(problem.groups.size(), -1);
  m.tight = m.age;
  m.phase = problem.closing_unit >= 0 ? Moment::Phase::lid_on : Moment::Phase::open;
  return m;
}

bool follow(ScheduleFacts& facts, int slack_s, const Moment& from, const Move& move, Moment& to) {
  to = from;
  if (!follow_window(move.window, to)) {
    return false;
  }
  if (!move.barrier) {
    return true;
  }
  const int seconds = seconds_of(facts, *move.barrier, to);
  if (!advance(to, seconds)) {
    return false;
  }
  switch (move.barrier->kind) {
    case Barrier::Kind::unsnug:
      unsnug(facts.problem(), *move.barrier, seconds, to);
      return true;
    case Barrier::Kind::inside_check:
      to.phase = Moment::Phase::open;
      return true;
    case Barrier::Kind::part:
      break;
  }
  return part(facts, slack_s, *move.barrier, to);
}

}  // namespace planner::order
