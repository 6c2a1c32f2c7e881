// The head of the text sheet: go or not, and what else would do.
#pragma once
#include "cli/text/page.h"
#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::text {

void verdict_section(const planner::plan::Plan& plan, const words::TextStyle& style, Page& page);
void ways_out_section(const planner::plan::Plan& plan, Page& page);  // nothing where there are none

}  // namespace cli::text
