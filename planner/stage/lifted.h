// What is lifted at a step, with the clamps that hang on it.
#pragma once
#include <span>

#include "planner/plan/plan.h"

namespace planner::stage {

// Fills `lifted_kg` of each join and turning over. `weight_g`: of each part; empty: nothing is known.
// REQUIRES: the stage has its clamps.
void weigh_lifts(plan::Stage& stage, std::span<const work::Joint> joints, std::span<const int> weight_g);

}  // namespace planner::stage
