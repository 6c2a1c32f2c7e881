#include "planner/order/stage_candidates.h"

#include <algorithm>
#include <cstdlib>
#include <set>

#include "planner/order/layer_stages.h"

namespace planner::order {
namespace {

// Groups considered for one stage; grids of unlike units have very many.
constexpr std::size_t kMostCandidates = 4000;

// Sets of boards here are indices into `boards`.
class Finder {
 public:
  Finder(const ScheduleProblem& whole, AssemblyGraph& graph, const Boards& boards)
      : whole_(whole), boards_(boards) {
    for (std::size_t b = 0; b < boards.size(); ++b) {
      ids_.push_back(graph.id_of(boards[b]));
      next_to_.push_back(touching(boards[b]));
      if (whole.closing_unit < 0 || !boards[b].contains(whole.closing_unit)) {
        without_lid_.insert(static_cast<int>(b));
      }
    }
  }

  // Each group grows by one neighbour after another.
  StageCandidates find() {
    std::vector<base::UnitSet> groups;
    for (int b = without_lid_.lowest(); b >= 0; b = without_lid_.next(b)) {
      groups.push_back(base::UnitSet::of(b));
    }
    const int most = static_cast<int>(boards_.size()) - 1;
    for (std::size_t i = 0; i < groups.size(); ++i) {
      const base::UnitSet group = groups[i];
      if (group.count() >= most) {
        continue;
      }
      if (groups.size() > kMostCandidates) {
        add_slabs();
        break;
      }
      const base::UnitSet near = (neighbours(group) & without_lid_) - group;
      for (int b = near.lowest(); b >= 0; b = near.next(b)) {
        const base::UnitSet larger = group | base::UnitSet::of(b);
        if (fresh(larger)) {
          groups.push_back(larger);
          add(larger, false);
        }
      }
    }
    return std::move(out_);
  }

 private:
  // The boards that a board touches.
  base::UnitSet touching(const base::UnitSet& board) const {
    base::UnitSet near, result;
    for (int u = board.lowest(); u >= 0; u = board.next(u)) {
      for (int v = 0; v < whole_.assembly.units; ++v) {
        if (whole_.assembly.touching(u, v) && !board.contains(v)) {
          near.insert(v);
        }
      }
    }
    for (std::size_t b = 0; b < boards_.size(); ++b) {
      if (near.intersects(boards_[b])) {
        result.insert(static_cast<int>(b));
      }
    }
    return result;
  }

  base::UnitSet neighbours(const base::UnitSet& group) const {
    base::UnitSet near;
    for (int b = group.lowest(); b >= 0; b = group.next(b)) {
      near = near | next_to_[static_cast<std::size_t>(b)];
    }
    return near;
  }

  // No group of boards like these was met.
  bool fresh(const base::UnitSet& group) {
    std::vector<int> kind;
    for (int b = group.lowest(); b >= 0; b = group.next(b)) {
      kind.push_back(ids_[static_cast<std::size_t>(b)]);
    }
    std::ranges::sort(kind);
    return seen_.insert(std::move(kind)).second;
  }

  void add(const base::UnitSet& group, bool slab) {
    StageCandidate c;
    for (int b = group.lowest(); b >= 0; b = group.next(b)) {
      c.boards.push_back(boards_[static_cast<std::size_t>(b)]);
      c.group = c.group | c.boards.back();
    }
    c.work_s = work_s(whole_, c.boards);
    c.slab = slab;
    out_.list.push_back(std::move(c));
  }

  void add_slabs() {
    out_.cut_short = true;
    for (const base::UnitSet& slab : slabs(whole_.assembly, boards_)) {
      if (slab.count() < static_cast<int>(boards_.size()) && without_lid_.covers(slab) &&
          fresh(slab)) {
        add(slab, true);
      }
    }
  }

  const ScheduleProblem& whole_;
  const Boards& boards_;
  std::vector<int> ids_;                // by board, of its kind
  std::vector<base::UnitSet> next_to_;  // by board
  base::UnitSet without_lid_;           // all boards but the one that closes
  std::set<std::vector<int>> seen_;
  StageCandidates out_;
};

}  // namespace

StageCandidates stage_candidates(const ScheduleProblem& whole, AssemblyGraph& graph,
                                 const Boards& boards, int wanted_work_s) {
  StageCandidates out = Finder(whole, graph, boards).find();
  std::ranges::stable_sort(out.list, {}, [wanted_work_s](const StageCandidate& c) {
    return std::abs(c.work_s - wanted_work_s);
  });
  return out;
}

int work_s(const ScheduleProblem& whole, const Boards& boards) {
  int sum = 0;
  for (const int j : joints_between(whole.assembly, boards)) {
    sum += whole.joints[static_cast<std::size_t>(j)].spread_s;
  }
  return sum / whole.people + (static_cast<int>(boards.size()) - 1) * whole.least_joining_s();
}

}  // namespace planner::order
