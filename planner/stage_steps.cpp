#include "planner/stage_steps.h"

#include <algorithm>
#include <cmath>

#include "planner/order_reasons.h"

namespace planner {
namespace {

std::vector<PartId> parts_of(const UnitSet& units, const StageWork& work) {
  std::vector<PartId> parts;
  for (int u = units.lowest(); u >= 0; u = units.next(u)) {
    const auto& unit = work.units[static_cast<std::size_t>(u)];
    parts.insert(parts.end(), unit.begin(), unit.end());
  }
  std::sort(parts.begin(), parts.end());
  return parts;
}

// The sides of a joint that get glue.
std::vector<PartId> spread_parts(const Joint& joint) {
  std::vector<PartId> parts;
  for (std::size_t side = 0; side < 2; ++side) {
    if (joint.spread[side]) {
      parts.push_back(joint.parts[side]);
    }
  }
  return parts;
}

// The side of the work that lies on the bench when `up` points up; nearest of the six.
Face face_against(const geometry::Direction& up) {
  Face face{2, false};
  double most = 0;
  for (int axis = 0; axis < 3; ++axis) {
    const double part = up[static_cast<std::size_t>(axis)];
    if (std::abs(part) > most + 1e-9) {
      most = std::abs(part);
      face = {axis, part < 0};
    }
  }
  return face;
}

void fill_join(Step& step, const PlannedJoin& join, const ScheduleProblem& problem,
               const StageWork& work, const geometry::Direction& up) {
  step.parts = parts_of(join.moving | join.staying, work);
  for (int joint : join.joints) {
    step.joints.push_back(work.joints[static_cast<std::size_t>(joint)]);
  }
  const auto& removal = problem.assembly.removals[static_cast<std::size_t>(join.removal)];
  // Nobody holds a bottom up under a standing box: what would rise stays, the rest is set down on
  // it.
  const bool rises = dot(removal.direction, up) < -0.5;
  step.motion = rises ? Motion{parts_of(join.staying, work), removal.direction}
                      : Motion{parts_of(join.moving, work), -removal.direction};
  step.wants_hand = !rises && wants_hand(problem, join, up);
}

void fill_limits(Stage& stage, const Schedule& schedule, const ScheduleProblem& problem,
                 const StageWork& work, std::span<const Joint> joints) {
  for (std::size_t j = 0; j < work.joints.size(); ++j) {
    const JointTime& time = problem.joints[j];
    const JointClock& clock = schedule.clocks[j];
    for (std::size_t f = 0; f < joints[work.joints[j]].faces.size(); ++f) {
      stage.limits.push_back({work.joints[j], f, static_cast<double>(time.open_s),
                              static_cast<double>(clock.used_open_s),
                              static_cast<double>(time.total_s),
                              static_cast<double>(clock.used_total_s)});
    }
  }
  std::stable_sort(
      stage.limits.begin(), stage.limits.end(),
      [](const FaceLimit& a, const FaceLimit& b) { return a.slack_s() < b.slack_s(); });
}

}  // namespace

Stage stage_from(const Schedule& schedule, const ScheduleProblem& problem, const StageWork& work,
                 std::span<const Joint> joints, std::span<const RoundDemand> rounds,
                 std::span<const std::vector<int>> clamps_of_round, int first_step) {
  Stage stage;
  stage.parts = parts_of(UnitSet::first(static_cast<int>(work.units.size())), work);
  stage.joints = work.joints;
  stage.slack_s = schedule.slack_s;
  stage.makespan_s = schedule.makespan_s;
  stage.pull_apart_by_s = schedule.pull_apart_by_s;
  stage.status = schedule.status;
  if (schedule.bound_s) {
    stage.bound_s = *schedule.bound_s;
  }
  const geometry::Direction up = bench_up(problem, schedule);
  stage.bench_face = face_against(up);
  for (const PlannedStep& planned : schedule.steps) {
    Step step;
    step.n = first_step++;
    step.kind = planned.kind;
    step.start_s = planned.start_s;
    step.end_s = planned.end_s;
    step.people = planned.people;
    step.inside_check = planned.inside_check;
    if (planned.joint >= 0) {
      const JointId id = work.joints[static_cast<std::size_t>(planned.joint)];
      step.joints = {id};
      step.parts = spread_parts(joints[id]);
    }
    if (planned.join >= 0) {
      fill_join(step, schedule.joins[static_cast<std::size_t>(planned.join)], problem, work, up);
    }
    if (planned.group >= 0) {
      const auto g = static_cast<std::size_t>(planned.group);
      step.joints = rounds[g].holds.empty() ? rounds[g].presses : rounds[g].holds;
      step.clamps = clamps_of_round[g];
    }
    stage.steps.push_back(std::move(step));
  }
  fill_limits(stage, schedule, problem, work, joints);
  return stage;
}

}  // namespace planner
