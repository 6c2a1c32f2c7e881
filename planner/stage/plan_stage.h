// One stage: the clamps that hold it, the order and the clock, then the clamps for full pressure
// where the time allows.
#pragma once
#include <memory>
#include <vector>

#include "planner/clamps/layout/clamp_layout.h"
#include "planner/stage/known_layouts.h"
#include "planner/stage/plan_options.h"
#include "planner/stage/stage_problem.h"
#include "planner/work/square.h"
#include "planner/work/standing.h"

namespace planner::stage {

struct StageInput {
  const work::Job& job;
  const work::Shop& shop;
  const work::GlueInUse& glue;
  std::span<const geometry::Solid> solids;
  std::span<const work::Joint> joints;
  const work::Motions& motions;
  const work::Standing& standing;
  std::vector<geometry::Box> bounds;  // by part
  std::vector<work::Ring> rings;      // to check for square, as find_rings() has them
  std::optional<work::PartId> closing_part;
  std::vector<int> weight_g = {};  // by part
  std::shared_ptr<KnownLayouts> layouts = std::make_shared<KnownLayouts>();
};

struct PlannedStage {
  plan::Stage stage;  // its steps and clamps numbered from first_step and first_clamp
  clamps::layout::ClampLayout layout;
  order::ScheduleProblem problem;  // with the clamps of `layout`
  order::Schedule schedule;
  std::optional<plan::VerdictReason> impossible;  // why no order exists; nothing where one does
};

// The clock is planned with the clamps that hold, or lightly do where that is the goal; those for
// full pressure, where they are asked for, are added only while the stage stays comfortable with
// them.
PlannedStage plan_stage(const StageInput& input, const StageWork& work, const PlanOptions& options,
                        int first_step, int first_clamp);

}  // namespace planner::stage
