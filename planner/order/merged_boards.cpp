#include "planner/order/merged_boards.h"

#include <algorithm>

namespace planner::order {
namespace {

int board_of(std::span<const base::UnitSet> boards, int unit) {
  const auto it = std::ranges::find_if(
      boards, [unit](const base::UnitSet& board) { return board.contains(unit); });
  return it == boards.end() ? -1 : static_cast<int>(it - boards.begin());
}

// All of one board leaves all of the other; it wipes as far as its worst pair.
std::int16_t leave(const AssemblyProblem& whole, int d, const base::UnitSet& a,
                   const base::UnitSet& b) {
  std::int16_t worst = 0;
  for (int i = a.lowest(); i >= 0; i = a.next(i)) {
    for (int j = b.lowest(); j >= 0; j = b.next(j)) {
      const std::int16_t cost = whole.leave(d, i, j);
      if (cost == kRefused) {
        return kRefused;
      }
      worst = std::max(worst, cost);
    }
  }
  return worst;
}

bool touch(const AssemblyProblem& whole, const base::UnitSet& a, const base::UnitSet& b) {
  for (int i = a.lowest(); i >= 0; i = a.next(i)) {
    for (int j = b.lowest(); j >= 0; j = b.next(j)) {
      if (whole.touching(i, j)) {
        return true;
      }
    }
  }
  return false;
}

AssemblyProblem assembly_of(const AssemblyProblem& whole, const std::vector<base::UnitSet>& boards,
                            const std::vector<int>& joints) {
  AssemblyProblem a;
  a.units = static_cast<int>(boards.size());
  a.stop = whole.stop;
  a.removals = whole.removals;
  for (std::size_t d = 0; d < whole.removals.size(); ++d) {
    Removal& removal = a.removals[d];
    if (removal.folds) {
      removal.hinge = {board_of(boards, removal.hinge[0]), board_of(boards, removal.hinge[1])};
    }
    // No hinge where one of its boards is not there, or the two are glued already.
    const bool gone = removal.folds && (removal.hinge[0] < 0 || removal.hinge[1] < 0 ||
                                        removal.hinge[0] == removal.hinge[1]);
    for (const base::UnitSet& i : boards) {
      for (const base::UnitSet& j : boards) {
        a.leaves.push_back(i == j ? std::int16_t{0}
                           : gone ? kRefused
                                  : leave(whole, static_cast<int>(d), i, j));
      }
    }
  }
  for (const base::UnitSet& i : boards) {
    for (const base::UnitSet& j : boards) {
      a.touch.push_back(i != j && touch(whole, i, j));
    }
  }
  for (const int j : joints) {
    const auto [u, v] = whole.joints[static_cast<std::size_t>(j)];
    a.joints.emplace_back(board_of(boards, u), board_of(boards, v));
  }
  return a;
}

// Joined pairs of boards close a ring unless they make a tree.
bool closes_ring(const AssemblyProblem& assembly) {
  std::vector<std::pair<int, int>> pairs;
  for (const auto& [u, v] : assembly.joints) {
    pairs.emplace_back(std::min(u, v), std::max(u, v));
  }
  std::ranges::sort(pairs);
  pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
  return static_cast<int>(pairs.size()) >= assembly.units;
}

base::UnitSet units_of(const base::UnitSet& boards, const std::vector<base::UnitSet>& all) {
  base::UnitSet units;
  for (int b = boards.lowest(); b >= 0; b = boards.next(b)) {
    units = units | all[static_cast<std::size_t>(b)];
  }
  return units;
}

}  // namespace

StageQuotient merged_boards(const StageProblem& problem, Boards boards, const StageClamps& clamps,
                            bool last) {
  const ScheduleProblem& whole = problem.whole;
  StageQuotient q;
  q.joints = joints_between(whole.assembly, boards);
  q.problem = whole;
  q.problem.assembly = assembly_of(whole.assembly, boards, q.joints);
  q.problem.joints.clear();
  for (std::size_t k = 0; k < q.joints.size(); ++k) {
    JointTime time = whole.joints[static_cast<std::size_t>(q.joints[k])];
    time.group = clamps.group_of[k];
    q.problem.joints.push_back(time);
  }
  q.problem.groups = clamps.groups;
  for (SnugRound& round : q.problem.groups) {
    std::vector<int> local;
    for (const int j : round.closed_first) {
      const auto it = std::ranges::find(q.joints, j);
      if (it != q.joints.end()) {
        local.push_back(static_cast<int>(it - q.joints.begin()));
      }
    }
    round.closed_first = local;
  }
  q.problem.weight_g.clear();
  for (const base::UnitSet& board : boards) {
    q.problem.weight_g.push_back(weight_g_of(whole, board));
  }
  q.problem.rings = clamps.rings;
  if (!clamps.groups.empty() && !closes_ring(q.problem.assembly)) {
    q.problem.rings = {clamps.open};
    for (SnugRound& round : q.problem.groups) {
      round.ring = 0;
    }
  }
  q.problem.closing_unit = -1;
  if (last && whole.closing_unit >= 0 && boards.size() > 2) {
    q.problem.closing_unit = board_of(boards, whole.closing_unit);
  }
  q.problem.given_joins.clear();
  q.boards = std::move(boards);
  return q;
}

StageOrder in_whole(const StageQuotient& q, const StageClamps& clamps, Schedule schedule) {
  const auto joint = [&q](int& j) { j = j < 0 ? j : q.joints[static_cast<std::size_t>(j)]; };
  for (PlannedStep& step : schedule.steps) {
    joint(step.joint);
  }
  joint(schedule.tightest);
  for (PlannedJoin& join : schedule.joins) {
    join.moving = units_of(join.moving, q.boards);
    join.staying = units_of(join.staying, q.boards);
    std::ranges::for_each(join.joints, joint);
  }
  return {q.boards, q.joints, clamps.groups, clamps.group_of, std::move(schedule)};
}

}  // namespace planner::order
