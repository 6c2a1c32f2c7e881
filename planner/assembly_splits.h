// Ways of taking one group into two, for assembly.cpp.
#pragma once
#include <bitset>
#include <span>
#include <vector>

#include "planner/assembly.h"

namespace planner {

using RemovalSet = std::bitset<AssemblyProblem::kMaxRemovals>;

// A bipartition of a group with the removals by which `first` leaves the rest.
struct RawSplit {
  UnitSet first;
  RemovalSet removals;
};

struct RawSplits {
  std::vector<RawSplit> splits;  // by `first`, none twice
  bool complete = true;
};

// What does not depend on the group: who may leave whom, neighbours, interchangeable units.
class SplitFinder {
 public:
  SplitFinder(const AssemblyProblem& problem, std::vector<int> stand_in);

  // All bipartitions into two groups, each connected by touching, that one removal parts; `first`
  // holds the lowest unit of the group, and of interchangeable units the lowest. Those that take
  // off one unit come first in the search, so a cut-off list has them. REQUIRES: group connected.
  RawSplits find(const UnitSet& group) const;

  bool connected(const UnitSet& group) const;
  int stand_in(int u) const { return stand_in_[static_cast<std::size_t>(u)]; }

 private:
  struct Search;
  std::size_t index(std::size_t removal, int unit) const {
    return static_cast<std::size_t>(unit) * removals_ + removal;
  }
  UnitSet component(const UnitSet& within, int seed) const;
  bool stands_in_order(const UnitSet& first, const UnitSet& group) const;
  void grow(Search& search, UnitSet in, UnitSet out, RemovalSet alive) const;
  void include(UnitSet& in, const UnitSet& out, RemovalSet& alive, int u) const;
  void exclude(const UnitSet& in, UnitSet& out, RemovalSet& alive, int u) const;
  // All but the folds about hinges whose boards are not both in the group.
  RemovalSet usable(const UnitSet& group) const;

  struct Hinge {
    std::size_t removal;
    int turns, stays;
  };
  int units_ = 0;
  const Stop* stop_ = nullptr;
  std::vector<Hinge> hinges_;
  std::size_t removals_ = 0;
  // By unit and removal: those that it can't leave, those that can't leave it.
  std::vector<UnitSet> held_by_, holds_;
  std::vector<UnitSet> neighbours_;
  std::vector<int> stand_in_, previous_alike_;
};

}  // namespace planner
