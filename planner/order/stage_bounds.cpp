#include "planner/order/stage_bounds.h"

#include <algorithm>
#include <iterator>
#include <numeric>
#include <set>

namespace planner::order {
namespace {

// Joins that must take place once these joints are being spread: boards that only touch otherwise
// may be together before.
int joins_after(const AssemblyProblem& a, const Boards& boards, std::span<const int> joints) {
  const std::vector<int> board = boards_by_unit(a, boards);
  std::vector<int> root(boards.size());
  std::iota(root.begin(), root.end(), 0);
  const auto at = [&board](int u) { return board[static_cast<std::size_t>(u)]; };
  const int n = static_cast<int>(boards.size());
  std::vector<bool> closes(static_cast<std::size_t>(n * n), false);
  for (const int j : joints) {
    const auto [u, v] = a.joints[static_cast<std::size_t>(j)];
    closes[static_cast<std::size_t>(at(u) * n + at(v))] = true;
    closes[static_cast<std::size_t>(at(v) * n + at(u))] = true;
  }
  int groups = n;
  for (int u = 0; u < a.units; ++u) {
    for (int v = u + 1; v < a.units; ++v) {
      if (at(u) < 0 || at(v) < 0 || !a.touching(u, v) ||
          closes[static_cast<std::size_t>(at(u) * n + at(v))]) {
        continue;
      }
      const int from = root[static_cast<std::size_t>(at(u))];
      const int to = root[static_cast<std::size_t>(at(v))];
      groups -= from != to ? 1 : 0;
      std::ranges::replace(root, from, to);
    }
  }
  return groups - 1;
}

// From snug to tight, whether the stage closes a ring or not.
int least_finish_s(const StageClamps& clamps, const SnugRound& round, int people) {
  const RingFinish& ring = clamps.rings[static_cast<std::size_t>(round.ring)];
  return std::min(ring.tack_s + ring.check_s, clamps.open.tack_s + clamps.open.check_s) +
         round.tightening_s(people);
}

// Units that touch without any of these joints.
std::vector<std::pair<int, int>> dry_pairs(const AssemblyProblem& a, const std::vector<int>& joints) {
  std::set<std::pair<int, int>> joined;
  for (const int j : joints) {
    joined.insert(std::minmax(a.joints[static_cast<std::size_t>(j)].first,
                              a.joints[static_cast<std::size_t>(j)].second));
  }
  std::vector<std::pair<int, int>> dry;
  for (int u = 0; u < a.units; ++u) {
    for (int v = u + 1; v < a.units; ++v) {
      if (a.touching(u, v) && !joined.contains({u, v})) {
        dry.emplace_back(u, v);
      }
    }
  }
  return dry;
}

}  // namespace

bool clearly_too_much(const ScheduleProblem& whole, const Boards& boards,
                      std::span<const int> joints, const StageClamps& clamps) {
  for (std::size_t g = 0; g < clamps.groups.size(); ++g) {
    int spread = 0, total = 0;
    bool snug_holds = false;
    std::vector<int> own;
    for (std::size_t k = 0; k < joints.size(); ++k) {
      if (clamps.group_of[k] == static_cast<int>(g)) {
        const JointTime& time = whole.joints[static_cast<std::size_t>(joints[k])];
        spread += time.spread_s;
        total = std::max(total, time.total_s);
        snug_holds = snug_holds || time.held_snug;
        own.push_back(joints[k]);
      }
    }
    const int needed = spread / whole.people + clamps.groups[g].snugging_s(whole.people) +
                       (snug_holds ? 0 : least_finish_s(clamps, clamps.groups[g], whole.people));
    if (!own.empty() && needed + joins_after(whole.assembly, boards, own) * whole.least_joining_s() > total) {
      return true;
    }
  }
  return false;
}

FewestStages::FewestStages(const StageProblem& problem) : problem_(problem) {
  const ScheduleProblem& whole = problem.whole;
  std::vector<int> all(whole.joints.size());
  std::iota(all.begin(), all.end(), 0);
  const StageClamps together = problem.clamps(all);
  rounds_.resize(together.groups.size());
  for (const int j : all) {
    const int group = together.group_of[static_cast<std::size_t>(j)];
    if (group < 0) {
      continue;
    }
    const StageClamps alone = problem.clamps(std::span(&j, 1));
    const JointTime& time = whole.joints[static_cast<std::size_t>(j)];
    int pressing = 0;
    if (alone.group_of.front() >= 0) {
      const SnugRound& round = alone.groups[static_cast<std::size_t>(alone.group_of.front())];
      pressing = round.snugging_s(whole.people) +
                 (time.held_snug ? 0 : least_finish_s(alone, round, whole.people));
    }
    Round& round = rounds_[static_cast<std::size_t>(group)];
    round.pressing_s = round.joints.empty() ? pressing : std::min(round.pressing_s, pressing);
    round.total_s = std::max(round.total_s, time.total_s);
    round.joints.push_back(j);
  }
  for (Round& round : rounds_) {
    round.dry = dry_pairs(whole.assembly, round.joints);
  }
}

// A stage joins all its boards; what touches without a joint of the round may be joined before. Over all
// stages that is a forest of such pairs at most.
int FewestStages::joins(const Boards& boards, const Round& round,
                        std::span<const int> left) const {
  std::vector<int> root = boards_by_unit(problem_.whole.assembly, boards);
  int joins = 0;
  const auto join = [&root](const std::pair<int, int>& units) {
    const int from = root[static_cast<std::size_t>(units.first)];
    const int to = root[static_cast<std::size_t>(units.second)];
    std::ranges::replace(root, from, to);
    return from != to ? 1 : 0;
  };
  for (const std::pair<int, int>& pair : round.dry) {
    join(pair);
  }
  for (const int j : left) {
    joins += join(problem_.whole.assembly.joints[static_cast<std::size_t>(j)]);
  }
  return joins;
}

int FewestStages::from(const Boards& boards) const {
  constexpr int kNever = 1'000'000;
  const ScheduleProblem& whole = problem_.whole;
  const std::vector<int> left = joints_between(whole.assembly, boards);
  int fewest = 1;
  for (const Round& round : rounds_) {
    std::vector<int> its;
    std::ranges::set_intersection(round.joints, left, std::back_inserter(its));
    if (its.empty()) {
      continue;
    }
    // In seconds of one person; each stage's spreading is rounded down to whole seconds of all.
    int work = joins(boards, round, its) * whole.least_joining_s() * whole.people;
    for (const int j : its) {
      work += whole.joints[static_cast<std::size_t>(j)].spread_s;
    }
    const int room = (round.total_s - round.pressing_s + 1) * whole.people - 1;
    fewest = room <= 0 ? kNever : std::max(fewest, (work + room - 1) / room);
  }
  return fewest;
}

}  // namespace planner::order
