// Why each step is where it is.
#pragma once
#include "planner/plan/plan.h"

namespace planner::stage {

// Of the step at `index` of the stage: how long glue stays open, what a movement closes, why a
// round, a check or a wait comes then. REQUIRES: the stage's steps and limits are filled in.
plan::StepReason step_reason(const plan::Stage& stage, std::size_t index);

}  // namespace planner::stage
