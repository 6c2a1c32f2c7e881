// Who can be taken away from whom: what orders of assembly are looked for in. An abstract problem;
// whoever knows the geometry fills it in.
#pragma once
#include <array>
#include <cstdint>
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
  friend bool operator==(const Removal&, const Removal&) = default;
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
  friend bool operator==(const AssemblyProblem&, const AssemblyProblem&) = default;
};

}  // namespace planner::order
