// The whole way from a job and a shop to a plan.
#pragma once
#include <optional>

#include "planner/glue_trial.h"
#include "planner/plan.h"
#include "planner/stop.h"

namespace planner {

struct PlanOptions {
  bool prove = false;    // search on without the effort limit
  bool explain = false;  // work out why each stage's order, which takes another search
  bool try_glues = false;
  bool drawing_only = false;  // parts, joints, whether they go together; no stage is planned
  Stop stop = {};             // once asked, the plan is the best found so far
};

// `plan` is absent exactly when `diagnostics` holds an error: the drawing is wrong. A job that the
// clock, the wood or the rack doesn't allow is a plan that says so. It is absent too where planning
// was stopped before any order was found; then `stopped` alone says why.
struct Planned {
  std::optional<Plan> plan;
  bool stopped = false;  // an end was asked for, so that `plan` is the best found so far
  std::vector<GlueTrial> glue_trials;  // where asked for
  Diagnostics diagnostics;
};
Planned make_plan(const Job& job, const Shop& shop, const PlanOptions& options);

}  // namespace planner
