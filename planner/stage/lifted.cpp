#include "planner/stage/lifted.h"

#include <algorithm>
#include <set>

#include "planner/tables/clamp.h"

namespace planner::stage {
namespace {

// All the joints that it presses lie within these parts.
bool hangs_on(const plan::PlannedClamp& clamp, const std::set<work::PartId>& parts,
              std::span<const work::Joint> joints) {
  return std::ranges::all_of(clamp.joints, [&](work::JointId id) {
    return parts.contains(joints[id].parts[0]) && parts.contains(joints[id].parts[1]);
  });
}

}  // namespace

void weigh_lifts(plan::Stage& stage, std::span<const work::Joint> joints, std::span<const int> weight_g) {
  std::set<int> on;
  for (plan::Step& step : stage.steps) {
    if (step.kind == plan::StepKind::snug) {
      on.insert(step.clamps.begin(), step.clamps.end());
    }
    const bool turns = step.kind == plan::StepKind::turn;
    if (weight_g.empty() || (!turns && !step.motion)) {
      continue;
    }
    const std::vector<work::PartId>& moved = turns ? step.parts : step.motion->moving;
    const std::set<work::PartId> parts(moved.begin(), moved.end());
    for (const work::PartId part : parts) {
      step.lifted_kg += weight_g[part] / 1000.0;
    }
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      if (on.contains(clamp.n) && hangs_on(clamp, parts, joints)) {
        step.lifted_kg += tables::mass_kg(*tables::find_clamp_kind(clamp.kind), clamp.size_mm);
      }
    }
  }
}

}  // namespace planner::stage
