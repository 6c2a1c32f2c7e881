// Which groups of units can come apart, and so go together: the AND/OR graph of subassemblies
// (Homem de Mello and Sanderson 1990) over directed blocking graphs (Wilson and Latombe 1994).
// Works on an abstract problem; whoever knows the geometry fills in who leaves whom.
#pragma once
#include <array>
#include <bitset>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "geometry/vector.h"
#include "planner/base/stop.h"
#include "planner/base/unit_set.h"

namespace planner::order {

// One way of taking a group off the rest: along a straight line, or folding about a hinge.
struct Removal {
  geometry::Direction direction;  // the way it leaves; where it folds, how it starts to open
  bool folds = false;
  int opposite = -1;  // index of the reversed removal
  // Of a fold: the units that the hinge joins, first the one that turns; which it is, for whoever
  // knows the geometry; and whether the trade folds such a corner rather than push it shut.
  std::array<int, 2> hinge{-1, -1};
  int fold = -1;
  bool usual = false;
};

// `leaves` of an AssemblyProblem: a cost in whole mm of wiped glue beyond the joint's own depth
// (0: free), or this.
inline constexpr std::int16_t kRefused = -1;

struct AssemblyProblem {
  static constexpr int kMaxRemovals = 128;

  int units = 0;  // at most UnitSet::kCapacity; each a part, or a group glued earlier
  std::vector<Removal> removals;
  // For removal d, unit i and unit j at [(d * units + i) * units + j]: can i be taken away from j
  // along d, any distance, touching or not, and what does it wipe. Of a fold all is refused where
  // the unit that turns would stay, or the one that stays would turn.
  // REQUIRES: [d, i, j] == [removals[d].opposite, j, i].
  std::vector<std::int16_t> leaves;
  std::vector<bool> touch;                  // [i * units + j], symmetric; glued or not
  std::vector<std::pair<int, int>> joints;  // glued pairs; each also touches
  // Joints of the same number may stand for one another when interchangeable units are looked for;
  // empty: all alike. The same for units.
  std::vector<int> joint_likeness, unit_likeness;
  // Once asked, only the first few ways apart of a group are looked at.
  const base::Stop* stop = nullptr;

  std::int16_t leave(int d, int i, int j) const {
    return leaves[static_cast<std::size_t>((d * units + i) * units + j)];
  }
  bool touching(int i, int j) const { return touch[static_cast<std::size_t>(i * units + j)]; }
};

// A group taken into two. Putting it together again is the join: `moving` (0: first, 1: second)
// comes to the other against removals[removal].direction.
struct Split {
  base::UnitSet first, second;  // first holds the lower lowest unit
  int first_id = 0, second_id = 0;
  int moving = 0, removal = 0;
  int wiped_mm = 0;         // beyond the joints' own depth, summed over the pairs
  int out_of_order = 0;     // pairs (i in first, j in second) with i after j in the job's order
  std::vector<int> joints;  // what closes
};

// A pair that keeps a locked group together: along removals[removal], `unit` runs into (or wipes
// too far over) `by`.
struct Lock {
  int removal = 0, unit = 0, by = 0;
};

// The subassemblies, made as they are asked for. Units that can stand for one another (shelves,
// legs) are explored once: a group is known by its canonical form, in which the lowest of each such
// kind stand for the others. Ids are stable within one graph and depend only on the order of calls.
class AssemblyGraph {
 public:
  // REQUIRES: problem.units between 1 and UnitSet::kCapacity, at most kMaxRemovals removals.
  explicit AssemblyGraph(AssemblyProblem problem);
  ~AssemblyGraph();
  AssemblyGraph(AssemblyGraph&&) noexcept;
  AssemblyGraph& operator=(AssemblyGraph&&) noexcept;

  const AssemblyProblem& problem() const;

  int whole();                            // id of the group of all units
  int id_of(const base::UnitSet& group);  // of its canonical form
  const base::UnitSet& canonical(int id) const;
  int size(int id) const;

  // Every way of taking the canonical group into two connected groups that come apart themselves,
  // by one removal that frees every cross pair. Splits alike but for interchangeable units are
  // listed once. Order: fewest parts out of the job's order, then fewest units in `second`, then by
  // `first`. Of the removals, the one that wipes least, then a usual fold, then the one that moves
  // fewest units, then moves down, then sideways, then `second` and the lowest index is taken.
  const std::vector<Split>& splits(int id);

  // False where a limit on the ways tried cut splits() short somewhere so far.
  bool complete() const;

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
  // What locks it: for each removal the pairs inside the group that refuse it, lowest units first,
  // at most one a removal.
  std::vector<Lock> locks(std::span<const int> locked_group) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

// For each unit the lowest unit that can stand for it: swapping the two changes neither the
// blocking, the contacts nor the joints. Ways of leaving that no contact of either unit allows are
// not compared where both touch the same neighbours: such a pair is never taken apart that way.
std::vector<int> interchangeable_units(const AssemblyProblem& problem);

}  // namespace planner::order
