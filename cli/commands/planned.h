// A job planned and checked, as every command that needs the plan wants it.
#pragma once
#include <optional>
#include <vector>

#include "cli/commands/inputs.h"
#include "cli/exit_status.h"
#include "planner/glue_trial.h"
#include "planner/plan.h"

namespace cli {

// `plan` is there unless something is wrong or it was stopped before there was one, which is then
// told on standard error (and as JSON where that was asked for); `status` is what the shell gets
// then.
struct PlannedJob {
  Inputs inputs;
  std::optional<planner::Plan> plan;
  std::vector<planner::GlueTrial> glue_trials;  // for `glue`
  ExitStatus status = ExitStatus::works;
};
PlannedJob plan_job(const Options& options);

}  // namespace cli
