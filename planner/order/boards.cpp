#include "planner/order/boards.h"

#include <algorithm>

namespace planner::order {

Boards single_units(const AssemblyProblem& assembly) {
  Boards boards;
  for (int u = 0; u < assembly.units; ++u) {
    boards.push_back(base::UnitSet::of(u));
  }
  return boards;
}

Boards with_joined(const Boards& boards, const base::UnitSet& group) {
  Boards then;
  for (const base::UnitSet& board : boards) {
    if (!group.covers(board)) {
      then.push_back(board);
    }
  }
  then.push_back(group);
  std::ranges::sort(then, {}, &base::UnitSet::lowest);
  return then;
}

std::vector<int> boards_by_unit(const AssemblyProblem& assembly,
                                std::span<const base::UnitSet> boards) {
  std::vector<int> board(static_cast<std::size_t>(assembly.units), -1);
  for (std::size_t b = 0; b < boards.size(); ++b) {
    for (int u = boards[b].lowest(); u >= 0; u = boards[b].next(u)) {
      board[static_cast<std::size_t>(u)] = static_cast<int>(b);
    }
  }
  return board;
}

std::vector<int> joints_between(const AssemblyProblem& assembly,
                                std::span<const base::UnitSet> boards) {
  const std::vector<int> board = boards_by_unit(assembly, boards);
  std::vector<int> joints;
  for (std::size_t j = 0; j < assembly.joints.size(); ++j) {
    const int a = board[static_cast<std::size_t>(assembly.joints[j].first)];
    const int b = board[static_cast<std::size_t>(assembly.joints[j].second)];
    if (a >= 0 && b >= 0 && a != b) {
      joints.push_back(static_cast<int>(j));
    }
  }
  return joints;
}

}  // namespace planner::order
