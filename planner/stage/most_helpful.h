// Where the clock leaves no comfort: the one change that gives most time, found by planning again.
#pragma once
#include <optional>

#include "planner/stage/plan_stages.h"

namespace planner::stage {

// A helper, a slower glue (of the shelf, else of the table), a roller, or the stages found beside one
// go. Nothing where every joint is closed and pressed in comfort, or no change gives 15 s.
std::optional<plan::HelpsMost> helps_most(const StageInput& input, const PlannedStages& planned);

}  // namespace planner::stage
