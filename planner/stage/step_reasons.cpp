#include "planner/stage/step_reasons.h"

#include <algorithm>
#include <span>

namespace planner::stage {
namespace {

// The face of the joints that is open longest.
const plan::FaceLimit* longest_open(const plan::Stage& stage,
                                    const std::vector<work::JointId>& joints) {
  const plan::FaceLimit* longest = nullptr;
  for (const plan::FaceLimit& limit : stage.limits) {
    const bool here = std::find(joints.begin(), joints.end(), limit.joint) != joints.end();
    if (here && (longest == nullptr || limit.used_open_s > longest->used_open_s)) {
      longest = &limit;
    }
  }
  return longest;
}

plan::StepReason spread_reason(const plan::Stage& stage, const plan::Step& step) {
  const plan::FaceLimit* face = longest_open(stage, step.joints);
  if (face == nullptr) {
    return plan::NothingToTell{};
  }
  return plan::OpenFor{face->used_open_s, face->open_s};
}

plan::StepReason check_reason(const plan::Stage& stage, std::size_t index) {
  const auto later = std::span(stage.steps).subspan(index + 1);
  const auto next =
      std::ranges::find_if(later, [](const plan::Step& step) { return step.motion.has_value(); });
  if (stage.steps[index].check != plan::Check::inside_diagonals || next == later.end()) {
    return plan::StillMoves{};
  }
  return plan::InsideStillOpen{next->motion->moving};
}

}  // namespace

plan::StepReason step_reason(const plan::Stage& stage, std::size_t index) {
  const plan::Step& step = stage.steps[index];
  switch (step.kind) {
    case plan::StepKind::spread:
      return spread_reason(stage, step);
    case plan::StepKind::join:
      return plan::Closes{step.joints};
    case plan::StepKind::snug:
      return plan::AllClosed{step.joints};
    case plan::StepKind::cauls:
      return plan::BoardsFlush{};
    case plan::StepKind::check:
      return check_reason(stage, index);
    case plan::StepKind::tighten:
      return plan::EvenlyDrawn{};
    case plan::StepKind::wait:
      return plan::GlueGrabs{};
    case plan::StepKind::fasten:
    case plan::StepKind::load:
      return plan::AllClosed{step.joints};
    case plan::StepKind::ease:
      return plan::LegsAlike{};
    case plan::StepKind::turn:
      return plan::FromAbove{};
  }
  return plan::NothingToTell{};
}

}  // namespace planner::stage
