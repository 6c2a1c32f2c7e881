#include "planner/verify/verify_lying.h"

#include <algorithm>
#include <set>

namespace planner::verify {
namespace {

using Parts = std::vector<work::PartId>;

// Some clamp that is on already presses a joint between two of the parts.
bool clamped(const plan::Stage& stage, const std::set<int>& on, const std::vector<work::Joint>& joints,
             const Parts& parts) {
  return std::ranges::any_of(stage.clamps, [&](const plan::PlannedClamp& clamp) {
    return on.contains(clamp.n) && std::ranges::any_of(clamp.joints, [&](work::JointId id) {
             return is_in(joints[id].parts[0], parts) && is_in(joints[id].parts[1], parts);
           });
  });
}

void verify_coming(VerifyContext& c, const plan::Stage& stage, const plan::Step& step, const std::set<int>& on,
                   const geometry::Direction& down) {
  constexpr double kUpwards = 0.7;
  const Parts& moving = step.motion->moving;
  Parts staying;
  std::ranges::copy_if(step.parts, std::back_inserter(staying),
                       [&](work::PartId part) { return !is_in(part, moving); });
  const std::string at = "step " + std::to_string(step.n);
  c.require(dot(step.motion->direction, down) > -kUpwards, at + " holds parts up under the others");
  c.require(!clamped(stage, on, c.joints, moving) || clamped(stage, on, c.joints, staying),
            at + " brings clamped work to what has no clamps on it");
}

}  // namespace

void verify_lying(VerifyContext& c) {
  for (const plan::Stage& stage : c.plan.stages) {
    double sense = stage.bench_face.positive ? 1 : -1;
    std::set<int> on;
    for (const plan::Step& step : stage.steps) {
      if (step.kind == plan::StepKind::snug) {
        on.insert(step.clamps.begin(), step.clamps.end());
      } else if (step.kind == plan::StepKind::turn) {
        sense = -sense;
      } else if (step.motion && !step.motion->fold) {
        verify_coming(c, stage, step, on, sense * geometry::kAxis[stage.bench_face.axis]);
      }
    }
  }
}

}  // namespace planner::verify
