// Clamps that stay on the rack: where the next ones would help most, and what they cost.
#pragma once
#include <string>
#include <vector>

#include "planner/clamps/layout/stage_clamps.h"

namespace planner::clamps::layout {

struct SpareClamps {
  geometry::Direction axis;
  std::vector<geometry::Point> at;       // the one that helps most first
  std::vector<std::size_t> rows;         // of the rack, a clamp each
  work::JointId joint = 0;               // the least pressed on the axis
  double before_MPa = 0, after_MPa = 0;  // the least pressure on the axis
};

// For each held axis that isn't fully pressed, up to three of the clamps left, one after the other
// on the place that takes away most of what all places lack, until the least pressure is a tenth
// more; by axis. Left out where three don't do that, on wide faces and under cambered cauls.
// Whether their bars clear the others isn't looked at: a hint, not a part of the plan.
std::vector<SpareClamps> spare_clamps(const ClampProblem& problem, const StageAxes& stage);

// Where, measured from the work's front-left-bottom corner, what the least pressure becomes, and
// the seconds it takes to set and tighten them.
std::string to_text(const SpareClamps& spare, const ClampProblem& problem);

}  // namespace planner::clamps::layout
