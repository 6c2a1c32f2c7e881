// How far apart parts may be drawn and still touch.
#pragma once
#include <algorithm>

#include "planner/work/job.h"

namespace planner::work {

// CAD leaves play of 0.1 or 0.2 mm between parts that are to touch (common practice); a hundredth
// more is what noise and the flatness of facets add.
inline constexpr double kDrawnPlay_mm = 0.21;

// What the glue fills, and in a mesh the play that it was drawn with.
inline double touching_mm(const Job& job, double glue_fills_mm) {
  return job.mesh ? std::max(glue_fills_mm, kDrawnPlay_mm) : glue_fills_mm;
}

}  // namespace planner::work
