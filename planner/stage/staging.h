// More than one go: which boards first, each stage planned by itself.
#pragma once
#include <functional>
#include <vector>

#include "planner/order/stages.h"
#include "planner/stage/plan_stage.h"

namespace planner::stage {

// In time, with clamps that are on the rack.
bool holds(const PlannedStage& planned);

// The clamps bring every joint home, or give it what holds, or less where that will do.
bool presses(const PlannedStage& planned, std::span<const work::Joint> joints);
// Every limit of all the stages leaves time enough.
bool comfortable(std::span<const PlannedStage> stages);
// The one with the least slack. REQUIRES: there is one.
const PlannedStage& tightest(std::span<const PlannedStage> stages);

struct Staging {
  order::StageOrders orders;         // by the clamps that one go puts on the same joints
  std::vector<PlannedStage> stages;  // planned by themselves; empty where rack or clock fail
};

// How many stages may be planned.
struct StageCount {
  int least = 2, most = plan::kMostStages;
};

// The fewest stages of so many; of some that are as few the best whose clamps press every joint.
Staging plan_in_stages(const StageInput& input, const PlannedStage& one_go,
                       const PlanOptions& options, StageCount count = {});

// Each stage planned by itself, while they are good; steps and clamps are numbered through. Empty where one
// isn't.
std::vector<PlannedStage> plan_while(std::span<const StageWork> works, const StageInput& input,
                                     const PlanOptions& options,
                                     const std::function<bool(const PlannedStage&)>& good);
// All of them, good or not.
std::vector<PlannedStage> plan_each(std::span<const StageWork> works, const StageInput& input,
                                    const PlanOptions& options);

}  // namespace planner::stage
