// Who can be reached from one of a set by links within it.
#pragma once
#include <span>

#include "planner/base/unit_set.h"

namespace planner::base {

// `seed` and all that its links, and theirs, lead to inside `within`. `links`: a set for each unit.
// REQUIRES: within contains seed.
inline UnitSet reach(std::span<const UnitSet> links, const UnitSet& within, int seed) {
  UnitSet reached = UnitSet::of(seed), edge = reached;
  while (!edge.empty()) {
    UnitSet next;
    for (int u = edge.lowest(); u >= 0; u = edge.next(u)) {
      next = next | links[static_cast<std::size_t>(u)];
    }
    edge = (next & within) - reached;
    reached = reached | edge;
  }
  return reached;
}

}  // namespace planner::base
