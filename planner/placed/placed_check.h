// Whether the user's own clamps can stand where they are placed.
#pragma once
#include <span>

#include "geometry/solid.h"
#include "planner/work/job.h"
#include "planner/work/joint.h"

namespace planner::placed {

// Clamps that can't stand where they are placed, at their place in the file: errors where one
// misses the work, presses on a hollow, has no flat free face for its jaw, isn't long or deep
// enough, or is asked for more force than strong hands give with its kind; a warning where it
// presses no joint. REQUIRES: solids are those of the parts, without errors.
base::Diagnostics check_placed(const work::Job& job, std::span<const geometry::Solid> solids,
                               std::span<const work::Joint> joints, double max_gap_mm);

}  // namespace planner::placed
