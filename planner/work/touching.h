// How far apart parts may be drawn and still touch.
#pragma once
#include <algorithm>

#include "planner/work/job.h"

namespace planner::work {

// CAD leaves play of 0.1 or 0.2 mm between parts that are to touch (common practice); a hundredth
// more is what noise and the flatness of facets add.
inline constexpr double kDrawnPlay_mm = 0.21;

// What the glue fills, and in a mesh the play that it was drawn with; never through a part, so no more than
// half of the thinnest: epoxy fills 2 mm, and plies are as thin.
inline double touching_mm(const Job& job, double glue_fills_mm) {
  double most_mm = job.mesh ? std::max(glue_fills_mm, kDrawnPlay_mm) : glue_fills_mm;
  for (const Part& part : job.parts) {
    for (int axis = 0; axis < 3 && !part.mesh; ++axis) {
      most_mm = std::min(most_mm, part.size(axis).mm() / 2);
    }
  }
  return most_mm;
}

}  // namespace planner::work
