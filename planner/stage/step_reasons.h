// Why each step is where it is.
#pragma once
#include <span>
#include <string>

#include "planner/plan/plan.h"

namespace planner::stage {

// A sentence for the step at `index` of the stage, lower case, no full stop: how long glue stays
// open, what a movement closes, why a round, a check or a wait comes then. REQUIRES: the stage's
// steps and limits are filled in.
std::string step_reason(const plan::Stage& stage, std::size_t index,
                        std::span<const work::Joint> joints, const work::Job& job);

}  // namespace planner::stage
