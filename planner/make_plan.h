// The whole way from a job and a shop to a plan.
#pragma once
#include <optional>

#include "planner/stage/plan_options.h"
#include "planner/plan/plan.h"
#include "planner/stage/glue_trial.h"

namespace planner {

// `plan` is absent exactly when `diagnostics` holds an error: the drawing is wrong. A job that the
// clock, the wood or the rack doesn't allow is a plan that says so. It is absent too where planning
// was stopped before any order was found; then `stopped` alone says why.
struct Planned {
  std::optional<plan::Plan> plan;
  bool stopped = false;  // an end was asked for, so that `plan` is the best found so far
  std::vector<stage::GlueTrial> glue_trials;  // where asked for
  base::Diagnostics diagnostics;
};
Planned make_plan(const work::Job& job, const work::Shop& shop, const stage::PlanOptions& options);

// A good plan soon, for somebody who waits for the whole one: its searches end early, and it says that it
// was stopped. The same on every machine.
Planned make_first_plan(const work::Job& job, const work::Shop& shop, stage::PlanOptions options);

}  // namespace planner
