// Pressure and time as strips of SVG, and the patterns that they are filled with.
#pragma once
#include <string>

#include "planner/plan/plan.h"

namespace cli::html {

// Patterns the other pictures fill with. Once a page, before them.
std::string svg_patterns();

// One glue line from weak to crushed.
std::string pressure_svg(const planner::plan::LinePressure& line, double crush_MPa,
                         const std::string& name);
// What the fillings of such a strip mean.
std::string pressure_legend_svg();

// Who does what when, against the limits of the tightest joints.
std::string timeline_svg(const planner::plan::Plan& plan, const planner::plan::Stage& stage);

}  // namespace cli::html
