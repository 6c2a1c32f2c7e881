// From a chosen site to a clamp as the plan tells it.
#pragma once
#include "planner/clamps/axis/axis_clamps.h"

namespace planner::clamps::axis {

// Where the clamp stands, how far it has to open, what lies under its jaws, what it presses and how
// hard. Its number, its level, which way its bar looks and which kind it is are for the caller to
// say. REQUIRES: the plan's model is there where it holds lines.
plan::PlannedClamp planned_clamp(const AxisClamps& plan, const ChosenClamp& chosen,
                                 base::Units units);

}  // namespace planner::clamps::axis
