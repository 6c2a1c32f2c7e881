#include "planner/step_reasons.h"

#include <algorithm>

#include "planner/side_words.h"
#include "planner/verdict.h"

namespace planner {
namespace {

std::string joint_names(const std::vector<JointId>& ids, std::span<const Joint> joints,
                        const Job& job) {
  std::vector<std::string> names;
  for (const JointId id : ids) {
    names.push_back(joint_name(joints[id], job));
  }
  return list_words(names);
}

// The face of the joints that is open longest.
const FaceLimit* longest_open(const Stage& stage, const std::vector<JointId>& joints) {
  const FaceLimit* longest = nullptr;
  for (const FaceLimit& limit : stage.limits) {
    const bool here = std::find(joints.begin(), joints.end(), limit.joint) != joints.end();
    if (here && (longest == nullptr || limit.used_open_s > longest->used_open_s)) {
      longest = &limit;
    }
  }
  return longest;
}

std::string spread_reason(const Stage& stage, const Step& step) {
  const FaceLimit* face = longest_open(stage, step.joints);
  return face == nullptr ? ""
                         : "open for " + seconds_text(face->used_open_s) + " of " +
                               seconds_text(face->open_s) + " until it is brought together";
}

std::string join_reason(const Step& step, std::span<const Joint> joints, const Job& job) {
  const std::string closes = step.joints.empty()
                                 ? "goes in dry, before its neighbours close round it"
                                 : "closes " + joint_names(step.joints, joints, job);
  return closes + "; nothing still to come is shut out";
}

// The parts that the next movement brings; empty where none follows.
std::string next_moving(const Stage& stage, std::size_t index, const Job& job) {
  for (std::size_t i = index + 1; i < stage.steps.size(); ++i) {
    if (stage.steps[i].motion) {
      std::vector<std::string> names;
      for (const PartId id : stage.steps[i].motion->moving) {
        names.push_back(job.parts[id].name);
      }
      return list_words(names);
    }
  }
  return {};
}

std::string check_reason(const Stage& stage, std::size_t index, const Job& job) {
  const std::string next = stage.steps[index].inside_check ? next_moving(stage, index, job) : "";
  return next.empty() ? "all is snug and the glue still moves"
                      : "once " + next + " is on, the inside can't be measured";
}

}  // namespace

std::string step_reason(const Stage& stage, std::size_t index, std::span<const Joint> joints,
                        const Job& job) {
  const Step& step = stage.steps[index];
  switch (step.kind) {
    case StepKind::spread:
      return spread_reason(stage, step);
    case StepKind::join:
      return join_reason(step, joints, job);
    case StepKind::snug:
      return "all it presses is closed: " + joint_names(step.joints, joints, job);
    case StepKind::check:
      return check_reason(stage, index, job);
    case StepKind::tighten:
      return "every round is snug, so none is pulled askew";
    case StepKind::wait:
      return "the glue grabs, so that nothing slides when it is tightened";
  }
  return {};
}

}  // namespace planner
