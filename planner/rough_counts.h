// Rough counts already made: trials of one stage come back to the same packings.
#pragma once
#include <map>
#include <vector>

#include "planner/held_round.h"

namespace planner {

class RoughCounts {
 public:
  // Made anew only where none is known by all that it hangs on but the work and its glue.
  RoughCount of(const RoundPlan& plan, const RoundQuestion& q, const PressNeed& need);

 private:
  std::map<std::vector<double>, RoughCount> counts_;
};

}  // namespace planner
