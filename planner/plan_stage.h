// One stage: the clamps that hold it, the order and the clock, then the clamps for full pressure
// where the time allows.
#pragma once
#include <string>
#include <vector>

#include "planner/clamp_layout.h"
#include "planner/make_plan.h"
#include "planner/square.h"
#include "planner/stage_problem.h"
#include "planner/standing.h"

namespace planner {

struct StageInput {
  const Job& job;
  const Shop& shop;
  const GlueInUse& glue;
  std::span<const geometry::Solid> solids;
  std::span<const Joint> joints;
  const Motions& motions;
  const Standing& standing;
  std::optional<Ring4> ring;  // to check for square
  std::optional<PartId> closing_part;
  std::vector<int> weight_g = {};  // by part
};

struct PlannedStage {
  Stage stage;  // its steps and clamps numbered from first_step and first_clamp
  ClampLayout layout;
  ScheduleProblem problem;  // with the clamps of `layout`
  Schedule schedule;
  std::string impossible;  // why no order exists; empty where one does
};

// The clock is planned with the clamps that hold; those for full pressure are added only while the
// stage stays comfortable with them.
PlannedStage plan_stage(const StageInput& input, const StageWork& work, const PlanOptions& options,
                        int first_step, int first_clamp);

}  // namespace planner
