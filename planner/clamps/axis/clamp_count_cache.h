// Rough counts already made: trials of one stage come back to the same packings.
#pragma once
#include <map>
#include <vector>

#include "planner/clamps/axis/fewest_on_axis.h"

namespace planner::clamps::axis {

class ClampCountCache {
 public:
  // Made anew only where none is known by all that it hangs on but the work and its glue.
  RoughCount of(const AxisClamps& plan, const AxisQuestion& q, const PressNeed& need);

 private:
  std::map<std::vector<double>, RoughCount> counts_;
};

}  // namespace planner::clamps::axis
