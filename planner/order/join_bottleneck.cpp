#include "planner/order/join_bottleneck.h"

#include <algorithm>
#include <limits>
#include <map>

#include "planner/order/likeness.h"

namespace planner::order {
namespace {

// Of unlike units there are too many groups; a bound then costs more than it saves.
constexpr std::size_t kMostGroups = 6000;
// Of the work that is left when it is first asked.
constexpr double kShare = 0.25;

int ceil_div(int a, int b) {
  return (a + b - 1) / b;
}

// From closed to held, if its clamp round comes at once and is its ring's last.
int least_hold_s(const ScheduleProblem& problem, const JointTime& t) {
  if (t.group < 0 || t.held_snug) {
    return problem.snug_s(t.group);
  }
  const int ring = problem.groups[static_cast<std::size_t>(t.group)].ring;
  return problem.snug_s(t.group) + problem.finish_s(ring) - problem.tightening_after_s(t.group);
}

}  // namespace

int slack_of_join_alone(const ScheduleProblem& problem, std::span<const int> joints) {
  const int join_s = problem.joining_s(joints);
  // Of the joints with the shortest limits the first to be spread waits for all of them to be
  // spread.
  const auto least = [&](std::vector<std::pair<int, int>> limit_and_seconds) {
    std::ranges::sort(limit_and_seconds);
    int sum = 0, slack = kFar;
    for (const auto& [limit, seconds] : limit_and_seconds) {
      sum += seconds;
      slack = std::min(slack, limit - join_s - std::max(seconds, ceil_div(sum, problem.people)));
    }
    return slack;
  };
  std::vector<std::pair<int, int>> open;
  std::map<int, std::vector<std::pair<int, int>>> total;  // by round
  for (const int j : joints) {
    const JointTime& t = problem.joints[static_cast<std::size_t>(j)];
    open.emplace_back(t.open_s, t.spread_s);
    total[t.group].emplace_back(t.total_s - least_hold_s(problem, t), t.spread_s);
  }
  int slack = least(open);
  for (const auto& [group, limits] : total) {
    slack = std::min(slack, least(limits));
  }
  return slack;
}

JoinAlone by_own_limits(const ScheduleProblem& problem) {
  return [&problem](const Split& split) {
    return slack_of_join_alone(problem, split.joints);
  };
}

int JoinBottleneck::best_slack(int group) {
  if (graph_.size(group) < 2) {
    return kFar;
  }
  if (static_cast<std::size_t>(group) >= known_.size()) {
    known_.resize(static_cast<std::size_t>(group) + 64);
  }
  if (known_[static_cast<std::size_t>(group)]) {
    return *known_[static_cast<std::size_t>(group)];
  }
  int best = std::numeric_limits<int>::min();
  if (!enough_) {
    enough_ = graph_.work_done() + kShare * graph_.work_left();
  }
  if (known_.size() > kMostGroups || graph_.work_done() > *enough_ || graph_.spent()) {
    best = kFar;
  } else {
    const std::vector<Split>& splits = graph_.splits(group);
    for (const Split& split : splits) {
      const int own = split_slack(split);
      if (own > best) {
        best = std::max(best,
                        std::min({own, best_slack(split.first_id), best_slack(split.second_id)}));
      }
    }
    if (!graph_.complete()) {
      best = kFar;
    }
  }
  known_[static_cast<std::size_t>(group)] = best;
  return best;
}

std::optional<Split> JoinBottleneck::worst_join() {
  int group = graph_.whole();
  const int worst = best_slack(group);
  while (graph_.size(group) > 1) {
    int next = -1;
    const std::vector<Split>& splits = graph_.splits(group);
    for (const Split& split : splits) {
      const int own = split_slack(split);
      const int first = best_slack(split.first_id), second = best_slack(split.second_id);
      if (std::min({own, first, second}) != worst) {
        continue;
      }
      if (own == worst) {
        return split;
      }
      next = first == worst ? split.first_id : split.second_id;
      break;
    }
    if (next < 0) {
      return std::nullopt;
    }
    group = next;
  }
  return std::nullopt;
}

std::optional<UnavoidableJoin> unavoidable_join(const ScheduleProblem& problem,
                                                KnownAssemblies known) {
  AssemblyGraph graph(known.ways_apart(with_likeness(problem)));
  graph.grant(Effort{}.work);
  JoinBottleneck bottleneck(graph, by_own_limits(problem));
  const int slack = bottleneck.best_slack(graph.whole());
  if (slack >= 0) {
    return std::nullopt;
  }
  const std::optional<Split> split = bottleneck.worst_join();
  if (!split) {
    return std::nullopt;
  }
  UnavoidableJoin result{split->first, split->second, {}, -slack};
  result.joints.assign(split->joints.begin(), split->joints.end());
  return result;
}

}  // namespace planner::order
