// Which groups of boards StageSearch considers for a stage, and which are too much at a glance.
#include <algorithm>
#include <cstdlib>
#include <set>

#include "planner/order/layer_stages.h"
#include "planner/order/stage_search.h"

namespace planner::order {
namespace {

// Groups considered for one stage; grids of unlike units have very many.
constexpr std::size_t kMostCandidates = 4000;

}  // namespace

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

int StageSearch::work_s(const Boards& boards) const {
  const std::vector<int> joints = joints_between(problem_.whole.assembly, boards);
  int sum = 0;
  for (const int j : joints) {
    sum += problem_.whole.joints[static_cast<std::size_t>(j)].spread_s;
  }
  return sum / problem_.whole.people +
         (static_cast<int>(boards.size()) - 1) * problem_.whole.join_s;
}

// Joins that must take place once these joints are being spread: boards that only touch otherwise
// may be together before.
int StageSearch::joins_after(const Boards& boards, const std::vector<int>& joints) const {
  const AssemblyProblem& a = problem_.whole.assembly;
  std::vector<int> board(static_cast<std::size_t>(a.units), -1), root;
  for (std::size_t b = 0; b < boards.size(); ++b) {
    root.push_back(static_cast<int>(b));
    for (int u = boards[b].lowest(); u >= 0; u = boards[b].next(u)) {
      board[static_cast<std::size_t>(u)] = static_cast<int>(b);
    }
  }
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

// While a round's joints wait to be held, all of them are spread and joined.
bool StageSearch::clearly_too_much(const Boards& boards, const std::vector<int>& joints,
                                   const StageClamps& clamps) const {
  const ScheduleProblem& whole = problem_.whole;
  for (std::size_t g = 0; g < clamps.groups.size(); ++g) {
    int spread = 0, total = 0;
    std::vector<int> own;
    for (std::size_t k = 0; k < joints.size(); ++k) {
      if (clamps.group_of[k] == static_cast<int>(g)) {
        const JointTime& time = whole.joints[static_cast<std::size_t>(joints[k])];
        spread += time.spread_s;
        total = std::max(total, time.total_s);
        own.push_back(joints[k]);
      }
    }
    const SnugRound& round = clamps.groups[g];
    const int snug = (round.clamps + whole.people - 1) / whole.people * round.snug_s;
    if (!own.empty() &&
        spread / whole.people + snug + joins_after(boards, own) * whole.join_s > total) {
      return true;
    }
  }
  return false;
}

// Connected groups of boards, likely ones (that take their even share of the work) first. Of groups
// of like boards one stands for all.
std::vector<StageSearch::Candidate> StageSearch::candidates(const Boards& boards,
                                                            int wanted_work_s) {
  const int n = static_cast<int>(boards.size());
  const int lid = problem_.whole.closing_unit;
  std::vector<int> ids;
  std::vector<base::UnitSet> next_to;  // boards, by board
  std::vector<base::UnitSet> groups;   // sets of boards
  base::UnitSet without_lid;           // all boards but the one that closes
  for (int b = 0; b < n; ++b) {
    const base::UnitSet& board = boards[static_cast<std::size_t>(b)];
    ids.push_back(graph_.id_of(board));
    next_to.push_back(touching(board, boards));
    if (lid < 0 || !board.contains(lid)) {
      groups.push_back(base::UnitSet::of(b));
      without_lid.insert(b);
    }
  }
  const std::size_t single = groups.size();
  std::set<std::vector<int>> seen;
  std::vector<Candidate> result;
  const auto fresh = [&](const base::UnitSet& group) {
    std::vector<int> kind;
    for (int b = group.lowest(); b >= 0; b = group.next(b)) {
      kind.push_back(ids[static_cast<std::size_t>(b)]);
    }
    std::ranges::sort(kind);
    return seen.insert(std::move(kind)).second;
  };
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const base::UnitSet group = groups[i];
    if (group.count() + 2 > n) {
      continue;
    }
    if (groups.size() > kMostCandidates) {
      cut_short_ = true;
      for (const base::UnitSet& slab : slabs(problem_.whole.assembly, boards)) {
        if (slab.count() < n && without_lid.covers(slab) && fresh(slab)) {
          result.push_back(candidate(boards, slab));
          result.back().slab = true;
        }
      }
      break;
    }
    base::UnitSet near;
    for (int b = group.lowest(); b >= 0; b = group.next(b)) {
      near = near | next_to[static_cast<std::size_t>(b)];
    }
    for (std::size_t k = 0; k < single; ++k) {
      const base::UnitSet larger = group | groups[k];
      if (larger == group || !near.intersects(groups[k])) {
        continue;
      }
      if (fresh(larger)) {
        groups.push_back(larger);
        result.push_back(candidate(boards, larger));
      }
    }
  }
  std::ranges::stable_sort(result, {}, [wanted_work_s](const Candidate& c) {
    return std::abs(c.work_s - wanted_work_s);
  });
  return result;
}

// The boards that a board touches.
base::UnitSet StageSearch::touching(const base::UnitSet& board, const Boards& boards) const {
  const AssemblyProblem& assembly = problem_.whole.assembly;
  base::UnitSet near, result;
  for (int u = board.lowest(); u >= 0; u = board.next(u)) {
    for (int v = 0; v < assembly.units; ++v) {
      if (assembly.touching(u, v) && !board.contains(v)) {
        near.insert(v);
      }
    }
  }
  for (std::size_t b = 0; b < boards.size(); ++b) {
    if (near.intersects(boards[b])) {
      result.insert(static_cast<int>(b));
    }
  }
  return result;
}

StageSearch::Candidate StageSearch::candidate(const Boards& boards,
                                              const base::UnitSet& group) const {
  Candidate c;
  for (int b = group.lowest(); b >= 0; b = group.next(b)) {
    c.boards.push_back(boards[static_cast<std::size_t>(b)]);
    c.group = c.group | c.boards.back();
  }
  c.work_s = work_s(c.boards);
  return c;
}

}  // namespace planner::order
