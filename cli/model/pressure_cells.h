// A glue line in equal stretches, each as good as its worst spot.
#pragma once
#include <vector>

#include "planner/plan/plan.h"

namespace cli::model {

enum class PressureCell { open, weak, held, full, crushed };

// The line's samples, straight between them, against what holds, what is full and what the wood
// bears. A line without samples is as good as its least pressure.
std::vector<PressureCell> pressure_cells(const planner::plan::LinePressure& line, int cells,
                                         double crush_MPa = 1e300);

// The compression perpendicular to grain of the weaker wood of the line's joint, of which a pad may
// press a share (planner/pressure/crush.h); no limit for a wood unknown.
double crush_limit_MPa(const planner::plan::Plan& plan, const planner::plan::LinePressure& line);

}  // namespace cli::model
