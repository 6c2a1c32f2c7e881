#include "planner/stage/stage_reach.h"

#include <algorithm>
#include <limits>

namespace planner::stage {

StageReach stage_reach(const StageWork& work, std::span<const geometry::Box> bounds) {
  StageReach reach;
  reach.lo.fill(std::numeric_limits<double>::max());
  reach.hi.fill(std::numeric_limits<double>::lowest());
  for (const std::vector<work::PartId>& unit : work.units) {
    for (const work::PartId part : unit) {
      for (std::size_t k = 0; k < 3; ++k) {
        reach.lo[k] = std::min(reach.lo[k], bounds[part].lo[k]);
        reach.hi[k] = std::max(reach.hi[k], bounds[part].hi[k]);
      }
    }
  }
  return reach;
}

}  // namespace planner::stage
