// Which groups of units can come apart, and so go together: the AND/OR graph of subassemblies
// (Homem de Mello and Sanderson 1990) over directed blocking graphs (Wilson and Latombe 1994).
#pragma once
#include <deque>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "planner/order/ways_apart.h"

namespace planner::order {

// The subassemblies, made as they are asked for, each known by its canonical form. Ids are stable
// within one graph and depend only on the order of calls.
class AssemblyGraph {
 public:
  explicit AssemblyGraph(std::shared_ptr<WaysApart> ways) : ways_(std::move(ways)) {}
  // REQUIRES: as WaysApart.
  explicit AssemblyGraph(AssemblyProblem problem)
      : AssemblyGraph(std::make_shared<WaysApart>(std::move(problem))) {}

  const AssemblyProblem& problem() const { return ways_->problem(); }

  int whole();                            // id of the group of all units
  int id_of(const base::UnitSet& group);  // of its canonical form
  const base::UnitSet& canonical(int id) const { return ways_->units_of(at(id).form); }
  int size(int id) const { return at(id).size; }

  // Every way of taking the canonical group into two connected groups that come apart themselves,
  // by one removal that frees every cross pair. Splits alike but for interchangeable units are
  // listed once. Order: fewest parts out of the job's order, then fewest units in `second`, then by
  // `first`. Of the removals, the one that wipes least, then a usual fold, then the one that moves
  // fewest units, then moves down, then sideways, then `second` and the lowest index is taken.
  // The list stays where it is while others are asked for.
  const std::vector<Split>& splits(int id);

  // False where a limit on the ways tried cut splits() short somewhere so far.
  bool complete() const { return complete_; }

  // Of the work that was granted (WaysApart::work).
  void work(double units) { ways_->work(units); }
  double work_done() const { return ways_->done(); }
  double work_left() const { return ways_->left(); }
  void grant(double units) { ways_->grant(units); }
  bool spent() const { return ways_->spent(); }

  // The group can be taken apart to single units.
  bool comes_apart(int id);

  // The units of `group` that stand where the units of its canonical form stand.
  base::UnitSet realise(const base::UnitSet& group, int id,
                        const base::UnitSet& canonical_subset) const;

  // Least total of (wiped_mm, out_of_order) over all ways of taking the group apart; a lower bound
  // (0, 0) where there are too many to try.
  std::pair<int, int> least_disorder(int id);

  // The smallest group found that no removal takes apart; empty where the whole comes apart.
  std::vector<int> locked_group();

 private:
  struct Group {
    int form = 0, size = 0;
    bool searched = false;
    std::vector<Split> raw;  // before those are dropped whose halves do not come apart
    std::optional<std::vector<Split>> splits;
    std::optional<bool> comes_apart;
    std::optional<std::pair<int, int>> least_disorder;
  };

  Group& at(int id) { return groups_[static_cast<std::size_t>(id)]; }
  const Group& at(int id) const { return groups_[static_cast<std::size_t>(id)]; }
  int id_of_form(int form);
  const std::vector<Split>& raw(int id);

  std::shared_ptr<WaysApart> ways_;
  std::deque<Group> groups_;  // which stay where they are while more are met
  std::vector<int> ids_;      // by form; -1: not met yet
  bool complete_ = true;
};

}  // namespace planner::order
