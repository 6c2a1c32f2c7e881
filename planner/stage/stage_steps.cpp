#include "planner/stage/stage_steps.h"

#include <algorithm>
#include <cmath>

#include "planner/work/joint_fit.h"

namespace planner::stage {
namespace {

// The sides of a joint that get glue.
std::vector<work::PartId> spread_parts(const work::Joint& joint) {
  std::vector<work::PartId> parts;
  for (std::size_t side = 0; side < 2; ++side) {
    if (joint.spread[side]) {
      parts.push_back(joint.parts[side]);
    }
  }
  return parts;
}

// The side of the work that lies on the bench when `up` points up; nearest of the six.
work::Face face_against(const geometry::Direction& up) {
  work::Face face{2, false};
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

void fill_join(plan::Step& step, std::size_t index, const SolvedStage& solved) {
  const order::PlannedJoin& join = solved.schedule.joins[index];
  step.parts = parts_of(join.moving | join.staying, solved.work);
  for (int joint : join.joints) {
    step.joints.push_back(solved.work.joints[static_cast<std::size_t>(joint)]);
  }
  const order::Removal& removal =
      solved.problem.assembly.removals[static_cast<std::size_t>(join.removal)];
  // Nobody holds a bottom up under a standing box: what would rise stays, the rest is set down on
  // it.
  step.motion = comes_from_below(solved.problem, join, solved.bench.up)
                    ? plan::Motion{parts_of(join.staying, solved.work), removal.direction, {}}
                    : plan::Motion{parts_of(join.moving, solved.work), -removal.direction, {}};
  if (removal.folds) {
    const work::Fold& fold = solved.folds[static_cast<std::size_t>(removal.fold)];
    step.motion->fold = plan::FoldUp{fold.hinge, fold.angle_deg, fold.turns, fold.stays};
  }
  step.wants_hand = solved.bench.wants_hand[index];
}

plan::PressedBy pressed_by(const work::Joint& joint, const order::JointTime& time) {
  if (time.group < 0) {
    return main_face(joint) ? plan::PressedBy::hand : plan::PressedBy::fit;
  }
  return !main_face(joint) ? plan::PressedBy::home
         : time.held_snug  ? plan::PressedBy::snug
                           : plan::PressedBy::tighten;
}

void fill_limits(plan::Stage& stage, const SolvedStage& solved) {
  const std::vector<work::JointId>& ids = solved.work.joints;
  for (std::size_t j = 0; j < ids.size(); ++j) {
    const order::JointTime& time = solved.problem.joints[j];
    const order::JointClock& clock = solved.schedule.clocks[j];
    for (std::size_t f = 0; f < solved.joints[ids[j]].faces.size(); ++f) {
      stage.limits.push_back(
          {ids[j], f, static_cast<double>(time.open_s), static_cast<double>(clock.used_open_s),
           static_cast<double>(time.total_s), static_cast<double>(clock.used_total_s),
           pressed_by(solved.joints[ids[j]], time)});
    }
  }
  std::stable_sort(
      stage.limits.begin(), stage.limits.end(),
      [](const plan::FaceLimit& a, const plan::FaceLimit& b) { return a.slack_s() < b.slack_s(); });
}

// The schedule has one check a ring; people make one thing after another of it.
void add_checks(plan::Stage& stage, const plan::Step& whole, const StageRing& ring) {
  const std::size_t before = stage.steps.size();
  double at_s = whole.start_s;
  const auto add = [&](plan::Step step, int seconds) {
    step.n = whole.n + static_cast<int>(stage.steps.size() - before);
    step.start_s = at_s;
    step.end_s = at_s += seconds;
    stage.steps.push_back(std::move(step));
  };
  if (ring.cauls_s > 0) {
    plan::Step step = whole;
    step.kind = plan::StepKind::cauls;
    add(std::move(step), ring.cauls_s);
  }
  for (const StageCheck& check : ring.checks) {
    plan::Step step = whole;
    step.check = check.what;
    step.rings = check.rings;
    add(std::move(step), check.seconds);
  }
}

}  // namespace

plan::Stage stage_from(const SolvedStage& solved, int first_step) {
  const order::Schedule& schedule = solved.schedule;
  const StageWork& work = solved.work;
  plan::Stage stage;
  stage.parts = parts_of(base::UnitSet::first(static_cast<int>(work.units.size())), work);
  stage.joints = work.joints;
  stage.slack_s = schedule.slack_s;
  stage.makespan_s = schedule.makespan_s;
  stage.pull_apart_by_s = schedule.pull_apart_by_s;
  stage.status = schedule.status;
  if (schedule.bound_s) {
    stage.bound_s = *schedule.bound_s;
  }
  stage.bench_face = face_against(solved.bench.up);
  for (const order::PlannedStep& planned : schedule.steps) {
    if (planned.group >= static_cast<int>(solved.rounds.size()) ||
        (planned.inside_check && planned.end_s == planned.start_s)) {
      continue;  // nobody does anything
    }
    plan::Step step;
    step.n = first_step + static_cast<int>(stage.steps.size());
    step.kind = planned.kind;
    step.start_s = planned.start_s;
    step.end_s = planned.end_s;
    step.people = planned.people;
    if (planned.kind == plan::StepKind::check && !planned.inside_check) {
      add_checks(stage, step, solved.rings[static_cast<std::size_t>(planned.ring)]);
      continue;
    }
    if (planned.inside_check) {
      step.check = plan::Check::inside_diagonals;
      step.rings = {0};
    }
    if (planned.joint >= 0) {
      const work::JointId id = work.joints[static_cast<std::size_t>(planned.joint)];
      step.joints = {id};
      step.parts = spread_parts(solved.joints[id]);
    }
    if (planned.join >= 0) {
      fill_join(step, static_cast<std::size_t>(planned.join), solved);
    }
    if (planned.group >= 0) {
      const auto g = static_cast<std::size_t>(planned.group);
      const StageDemand& round = solved.rounds[g];
      step.joints = round.closed_first;
      step.clamps = solved.clamps_of_round[g];
    }
    stage.steps.push_back(std::move(step));
  }
  fill_limits(stage, solved);
  return stage;
}

}  // namespace planner::stage
