// Rough counts already made: trials of one stage come back to the same packings.
#pragma once
#include <vector>

#include "planner/clamps/axis/fewest_on_axis.h"

namespace planner::clamps::axis {

class ClampCountCache {
 public:
  // Made anew only where none is known. REQUIRES: every question is on the same work and glue.
  RoughCount of(const AxisClamps& plan, const AxisQuestion& q, const PressNeed& need);

 private:
  // All that a count hangs on. Compared by every field, so that none added later is forgotten.
  struct Asked {
    RoundAxis axis;
    Packing packing;
    KindInUse kind;
    PressNeed need;
    friend bool operator==(const Asked&, const Asked&) = default;
  };
  struct Made {
    Asked asked;
    RoughCount count;
  };
  std::vector<Made> made_;
};

}  // namespace planner::clamps::axis
