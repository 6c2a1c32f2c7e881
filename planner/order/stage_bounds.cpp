#include "planner/order/stage_bounds.h"

#include <algorithm>
#include <numeric>

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

}  // namespace planner::order
