// The glues side by side: which suit this job, and why the others don't.
#pragma once
#include <vector>

#include "cli/text/page.h"
#include "cli/text/text.h"
#include "planner/stage/glue_trial.h"

namespace cli::text {

void glue_trials_section(const planner::plan::Plan& plan,
                         const std::vector<planner::stage::GlueTrial>& trials,
                         const words::TextStyle& style, Page& page);

}  // namespace cli::text
