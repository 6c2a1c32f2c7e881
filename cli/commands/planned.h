// A job planned and checked, as every command that needs the plan wants it.
#pragma once
#include <optional>
#include <vector>

#include "cli/commands/inputs.h"
#include "cli/terminal/exit_status.h"
#include "planner/plan/plan.h"
#include "planner/stage/glue_trial.h"

namespace cli::commands {

// `plan` is there unless something is wrong or it was stopped before there was one, which is then
// told on standard error (and as JSON where that was asked for); `status` is what the shell gets
// then.
struct PlannedJob {
  Inputs inputs;
  std::optional<planner::plan::Plan> plan;
  std::vector<planner::stage::GlueTrial> glue_trials;  // for `glue`
  terminal::ExitStatus status = terminal::ExitStatus::works;
};
PlannedJob plan_job(const terminal::Options& options);

}  // namespace cli::commands
