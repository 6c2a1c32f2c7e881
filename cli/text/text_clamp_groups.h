// Clamps as few lines: like ones together, by the places they share.
#pragma once
#include "cli/text/page.h"
#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::text {

void clamp_groups_section(const planner::plan::Plan& plan, const words::TextStyle& style,
                          Page& page);

}  // namespace cli::text
