// The clock of a stage, drawn in text.
#pragma once
#include <cstddef>

#include "cli/text/page.h"
#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::text {

// A stage's joints on a ruler of minutes, against their limits.
void timeline_section(const planner::plan::Plan& plan, std::size_t stage, Page& page);

}  // namespace cli::text
