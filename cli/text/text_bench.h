// The steps of the glue-up, as text.
#pragma once
#include "cli/text/page.h"
#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::text {

void glue_up_section(const planner::plan::Plan& plan, const words::TextStyle& style, Page& page);

}  // namespace cli::text
