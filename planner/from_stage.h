// A plan that is gone on with after an interruption: its first stages are glued and dry.
#pragma once
#include <cstddef>

#include "planner/plan/plan.h"
#include "planner/work/shop.h"

namespace planner {

// Leaves out of the plan what the stages before number `first` (from 1) ask and use: their parts stay, as what
// is there already; steps, clamps, limits, pressures and glue are those of the rest, and the verdict is judged
// anew. What is planned of the rest stays as it is, and so do its numbers. Afterwards verify_plan would miss
// what is done. REQUIRES: first from 1 to the number of stages, each of which has an order.
void go_on_from(plan::Plan& plan, std::size_t first, const work::Shop& shop);

}  // namespace planner
