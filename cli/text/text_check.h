// What the drawing was understood to say, and what in it wants mending, as text.
#pragma once
#include <string>

#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::text {

// Parts and joints found, gaps, what no glue holds, lines across the grain, what to mend first.
std::string check_sheet(const planner::plan::Plan& plan, const words::TextStyle& style);

}  // namespace cli::text
