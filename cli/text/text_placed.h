// The user's own clamps, as text.
#pragma once
#include "cli/text/page.h"
#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::text {

// REQUIRES: the job places clamps.
void placed_section(const planner::plan::Plan& plan, const words::TextStyle& style, Page& page);

}  // namespace cli::text
