// Like ends before the whole; else one go where it is comfortable; else the fewest stages that are,
// each glued, clamped and released before the next.
#pragma once
#include <optional>
#include <vector>

#include "planner/stage/plan_stage.h"

namespace planner::stage {

struct PlannedStages {
  std::vector<PlannedStage> stages;
  std::vector<plan::WayOut> ways_out;         // where time or rack fail
  std::optional<plan::HelpsMost> helps_most;  // where there is no comfort, and something helps
  std::optional<plan::OtherChoice> other;     // one go beside stages, or stages beside one go
  // What one go overran, where stages are planned instead.
  std::optional<order::ScheduleProblem> one_go;
  std::optional<plan::VerdictReason> impossible;  // why no order exists; nothing where one does
};

// Stages are looked for when one go leaves no comfort, overruns the glue's time or asks for more clamps
// than the rack has, counting on the clamps that one go would put on the same joints; each stage found
// is then planned by itself. The fewest that are comfortable are planned; where none are, one more than
// the fewest if that gains a tenth of the limit, and one go if that is in time. One go stays the answer
// where no staging mends it. As many as `options` asks for where it asks and they can be had.
PlannedStages plan_stages(const StageInput& input, const PlanOptions& options);

// Whether the parts go together at all: one stage with nothing planned but what is locked in its
// schedule, and `impossible`.
PlannedStages put_together(const StageInput& input, const PlanOptions& options);

}  // namespace planner::stage
