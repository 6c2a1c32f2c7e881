// Why each step is where it is.
#pragma once
#include <span>
#include <string>

#include "planner/plan.h"

namespace planner {

// A sentence for the step at `index` of the stage, lower case, no full stop: how long glue stays
// open, what a movement closes, why a round, a check or a wait comes then. REQUIRES: the stage's
// steps and limits are filled in.
std::string step_reason(const Stage& stage, std::size_t index, std::span<const Joint> joints,
                        const Job& job);

}  // namespace planner
