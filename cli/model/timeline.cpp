#include "cli/model/timeline.h"

#include <algorithm>

namespace cli::model {
namespace {

using planner::plan::FaceLimit;
using planner::plan::Stage;
using planner::plan::Step;

const Step* join_of(const Stage& stage, planner::work::JointId joint) {
  const auto found = std::find_if(stage.steps.begin(), stage.steps.end(), [&](const Step& step) {
    return step.kind == planner::plan::StepKind::join &&
           std::find(step.joints.begin(), step.joints.end(), joint) != step.joints.end();
  });
  return found == stage.steps.end() ? nullptr : &*found;
}

}  // namespace

std::vector<JointTime> joint_times(const Stage& stage) {
  std::vector<JointTime> times;
  for (const FaceLimit& face : stage.limits) {
    const bool known = std::any_of(times.begin(), times.end(),
                                   [&](const JointTime& time) { return time.joint == face.joint; });
    const Step* join = known ? nullptr : join_of(stage, face.joint);
    if (join == nullptr) {
      continue;
    }
    JointTime time;
    time.joint = face.joint;
    time.wet_s = join->end_s - face.used_open_s;
    time.together_s = join->end_s;
    time.held_s = time.wet_s + face.used_total_s;
    time.open_limit_s = time.wet_s + face.open_s;
    time.total_limit_s = time.wet_s + face.total_s;
    time.by_open = face.open_s - face.used_open_s <= face.total_s - face.used_total_s;
    time.used_s = time.by_open ? face.used_open_s : face.used_total_s;
    time.allowed_s = time.by_open ? face.open_s : face.total_s;
    times.push_back(time);
  }
  return times;
}

}  // namespace cli::model
