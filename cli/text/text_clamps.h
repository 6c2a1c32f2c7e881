// Clamps and what they press, as text.
#pragma once
#include <vector>

#include "cli/text/page.h"
#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::text {

void clamps_section(const planner::plan::Plan& plan, const words::TextStyle& style, Page& page);
// `lines`: the plan's own, or those of the user's clamps.
void pressure_section(const planner::plan::Plan& plan,
                      const std::vector<planner::plan::LinePressure>& lines,
                      const words::TextStyle& style, Page& page);

}  // namespace cli::text
