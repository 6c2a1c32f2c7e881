#include "planner/stage/step_reasons.h"

#include <algorithm>

#include "planner/base/side_words.h"

namespace planner::stage {
namespace {

std::string joint_names(const std::vector<work::JointId>& ids, std::span<const work::Joint> joints,
                        const work::Job& job) {
  std::vector<std::string> names;
  for (const work::JointId id : ids) {
    names.push_back(joint_name(joints[id], job));
  }
  return base::list_words(names);
}

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

std::string spread_reason(const plan::Stage& stage, const plan::Step& step) {
  const plan::FaceLimit* face = longest_open(stage, step.joints);
  return face == nullptr ? ""
                         : "open for " + base::seconds_text(face->used_open_s) + " of " +
                               base::seconds_text(face->open_s) + " until it is brought together";
}

std::string join_reason(const plan::Step& step, std::span<const work::Joint> joints,
                        const work::Job& job) {
  const std::string closes = step.joints.empty()
                                 ? "goes in dry, before its neighbours close round it"
                                 : "closes " + joint_names(step.joints, joints, job);
  return closes + "; nothing still to come is shut out";
}

// The parts that the next movement brings; empty where none follows.
std::string next_moving(const plan::Stage& stage, std::size_t index, const work::Job& job) {
  for (std::size_t i = index + 1; i < stage.steps.size(); ++i) {
    if (stage.steps[i].motion) {
      std::vector<std::string> names;
      for (const work::PartId id : stage.steps[i].motion->moving) {
        names.push_back(job.parts[id].name);
      }
      return base::list_words(names);
    }
  }
  return {};
}

std::string check_reason(const plan::Stage& stage, std::size_t index, const work::Job& job) {
  const std::string next = stage.steps[index].inside_check ? next_moving(stage, index, job) : "";
  return next.empty() ? "all is snug and the glue still moves"
                      : "once " + next + " is on, the inside can't be measured";
}

}  // namespace

std::string step_reason(const plan::Stage& stage, std::size_t index,
                        std::span<const work::Joint> joints, const work::Job& job) {
  const plan::Step& step = stage.steps[index];
  switch (step.kind) {
    case plan::StepKind::spread:
      return spread_reason(stage, step);
    case plan::StepKind::join:
      return join_reason(step, joints, job);
    case plan::StepKind::snug:
      return "all it presses is closed: " + joint_names(step.joints, joints, job);
    case plan::StepKind::check:
      return check_reason(stage, index, job);
    case plan::StepKind::tighten:
      return "every round is snug, so none is pulled askew";
    case plan::StepKind::wait:
      return "the glue grabs, so that nothing slides when it is tightened";
  }
  return {};
}

}  // namespace planner::stage
