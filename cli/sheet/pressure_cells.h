// A glue line in equal stretches, each as good as its worst spot.
#pragma once
#include <vector>

#include "planner/plan.h"

namespace cli {

enum class PressureCell { open, starved, held, full };

// The line's samples, straight between them, against what holds and what is full. A line without
// samples is as good as its least pressure.
std::vector<PressureCell> pressure_cells(const planner::LinePressure& line, int cells);

}  // namespace cli
