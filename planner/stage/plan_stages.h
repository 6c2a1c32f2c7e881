// One go where it holds; else the fewest stages that do, each glued, clamped and released before
// the next.
#pragma once
#include <optional>
#include <vector>

#include "planner/stage/plan_stage.h"

namespace planner::stage {

struct PlannedStages {
  std::vector<PlannedStage> stages;
  std::vector<plan::WayOut> ways_out;         // where time or rack fail
  std::optional<plan::HelpsMost> helps_most;  // where there is no comfort, and something helps
  // What one go overran, where stages are planned instead.
  std::optional<order::ScheduleProblem> one_go;
  std::optional<plan::VerdictReason> impossible;  // why no order exists; nothing where one does
};

// Stages are looked for when one go overruns the glue's time or asks for more clamps than the rack
// has, counting on the clamps that one go would put on the same joints; each stage found is then
// planned by itself. One go stays the answer where no staging mends it.
PlannedStages plan_stages(const StageInput& input, const PlanOptions& options);

// Whether the parts go together at all: one stage with nothing planned but what is locked in its
// schedule, and `impossible`.
PlannedStages put_together(const StageInput& input, const PlanOptions& options);

}  // namespace planner::stage
