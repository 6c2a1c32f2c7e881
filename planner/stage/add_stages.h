// The planned stages as the plan tells them.
#pragma once
#include <vector>

#include "planner/stage/plan_stage.h"

namespace planner::stage {

// Their steps, clamps, pressure and spare clamps in order, the risers that each stands on, and the
// rack over all of them. REQUIRES: the plan has its parts.
void add_stages(plan::Plan& plan, const work::Shop& shop, std::vector<PlannedStage> stages);

}  // namespace planner::stage
