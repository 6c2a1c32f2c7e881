// The glues side by side: which suit this job, and why the others don't.
#pragma once
#include <vector>

#include "cli/sheet/page.h"
#include "cli/sheet/text.h"
#include "planner/glue_trial.h"

namespace cli {

void glue_trials_section(const planner::Plan& plan, const std::vector<planner::GlueTrial>& trials,
                         const TextStyle& style, Page& page);

}  // namespace cli
