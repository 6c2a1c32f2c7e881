// Ways of taking one group into two.
#pragma once
#include <bitset>
#include <span>
#include <vector>

#include "planner/order/assembly_problem.h"

namespace planner::order {

using RemovalSet = std::bitset<AssemblyProblem::kMaxRemovals>;

// A bipartition of a group with the removals by which `first` leaves the rest.
struct RawSplit {
  base::UnitSet first;
  RemovalSet removals;
};

struct RawSplits {
  std::vector<RawSplit> splits;  // by `first`, none twice
  bool complete = true;
  int tries = 0;  // partial cuts looked at
};

// What does not depend on the group: who may leave whom, neighbours, interchangeable units.
class SplitFinder {
 public:
  SplitFinder(const AssemblyProblem& problem, std::vector<int> stand_in);

  // All bipartitions into two groups, each connected by touching, that one removal parts; `first`
  // holds the lowest unit of the group, and of interchangeable units the lowest. Those that take
  // off one unit come first in the search, so a cut-off list has them. Cut off after `most_tries`, or a
  // limit of its own. REQUIRES: group connected.
  RawSplits find(const base::UnitSet& group, int most_tries) const;
  static constexpr int kMostTries = 20000, kFewTries = 32;  // few: enough for some order

  bool connected(const base::UnitSet& group) const;
  // In the units of WaysApart::work().
  double work_of_a_try() const { return 10 + static_cast<double>(removals_) + units_; }
  int stand_in(int u) const { return stand_in_[static_cast<std::size_t>(u)]; }

 private:
  struct Search;
  std::size_t index(std::size_t removal, int unit) const {
    return static_cast<std::size_t>(unit) * removals_ + removal;
  }
  base::UnitSet component(const base::UnitSet& within, int seed) const;
  bool stands_in_order(const base::UnitSet& first, const base::UnitSet& group) const;
  void grow(Search& search, base::UnitSet in, base::UnitSet out, RemovalSet alive) const;
  void include(base::UnitSet& in, const base::UnitSet& out, RemovalSet& alive, int u) const;
  void exclude(const base::UnitSet& in, base::UnitSet& out, RemovalSet& alive, int u) const;
  // All but the folds about hinges whose boards are not both in the group.
  RemovalSet usable(const base::UnitSet& group) const;

  struct Hinge {
    std::size_t removal;
    int turns, stays;
  };
  int units_ = 0;
  const base::Stop* stop_ = nullptr;
  std::vector<Hinge> hinges_;
  std::size_t removals_ = 0;
  // By unit and removal: those that it can't leave, those that can't leave it.
  std::vector<base::UnitSet> held_by_, holds_;
  std::vector<base::UnitSet> neighbours_;
  std::vector<int> stand_in_, previous_alike_;
};

}  // namespace planner::order
