// The clamps on the work, as SVG.
#pragma once
#include <string>
#include <vector>

#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::html {

// The ways the stage's clamps press, each once: x, y, z, then the askew in the order of the clamps.
std::vector<geometry::Direction> clamp_ways(const planner::plan::Stage& stage);
bool presses_along(const planner::plan::PlannedClamp& clamp, const geometry::Direction& way);

// Looking along one of these ways at the stage with every clamp on it: pad, caul, bar and number at
// their place, to scale, with distances from the front-left-bottom corner.
std::string clamp_view_svg(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                           const geometry::Direction& way, const words::Wording& wording);
// "from the right", "from the front", "from above", "along them".
std::string seen_text(const geometry::Direction& way);

}  // namespace cli::html
