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
  step.motion = solved.bench.joins[index].other
                    ? plan::Motion{parts_of(join.staying, solved.work), removal.direction, {}}
                    : plan::Motion{parts_of(join.moving, solved.work), -removal.direction, {}};
  if (removal.folds) {
    const work::Fold& fold = solved.folds[static_cast<std::size_t>(removal.fold)];
    step.motion->fold = plan::FoldUp{fold.hinge, fold.angle_deg, fold.turns, fold.stays};
  }
  step.motion->rubbed = std::ranges::any_of(step.joints, [&](work::JointId id) {
    return solved.joints[id].held_by == work::HeldBy::hand;
  });
  step.wants_hand = solved.bench.joins[index].wants_hand;
}

plan::PressedBy pressed_by(const work::Joint& joint, const order::JointTime& time) {
  switch (joint.held_by) {
    case work::HeldBy::screws:
    case work::HeldBy::pins:
    case work::HeldBy::nails:
      return plan::PressedBy::fasteners;
    case work::HeldBy::weights:
      return plan::PressedBy::weights;
    case work::HeldBy::vacuum:
      return plan::PressedBy::vacuum;
    case work::HeldBy::tape:
      return plan::PressedBy::tape;
    case work::HeldBy::hand:
      return plan::PressedBy::hand;
    case work::HeldBy::fit:
      return plan::PressedBy::fit;
    case work::HeldBy::clamps:
    case work::HeldBy::strap:
      break;
  }
  if (time.group < 0) {
    return main_face(joint) ? plan::PressedBy::hand : plan::PressedBy::fit;
  }
  return !main_face(joint) ? plan::PressedBy::home
         : time.held_snug  ? plan::PressedBy::snug
                           : plan::PressedBy::tighten;
}

// Seconds of a join that turning the work over takes, at its end.
int turning_s(const SolvedStage& solved, std::size_t join) {
  if (!solved.bench.joins[join].turned_after) {
    return 0;
  }
  for (const order::PlannedStep& step : solved.schedule.steps) {
    if (step.join == static_cast<int>(join)) {
      const int seconds = step.end_s - step.start_s;
      return seconds > solved.turn_s ? solved.turn_s : seconds / 2;
    }
  }
  return 0;
}

// What a joint's times are less than the schedule's, as it is closed before the work is turned over.
std::vector<int> closed_sooner_s(const SolvedStage& solved) {
  std::vector<int> sooner(solved.work.joints.size(), 0);
  for (std::size_t join = 0; join < solved.schedule.joins.size(); ++join) {
    for (const int joint : solved.schedule.joins[join].joints) {
      sooner[static_cast<std::size_t>(joint)] = turning_s(solved, join);
    }
  }
  return sooner;
}

void fill_limits(plan::Stage& stage, const SolvedStage& solved) {
  const std::vector<work::JointId>& ids = solved.work.joints;
  const std::vector<int> sooner_s = closed_sooner_s(solved);
  for (std::size_t j = 0; j < ids.size(); ++j) {
    const order::JointTime& time = solved.problem.joints[j];
    order::JointClock clock = solved.schedule.clocks[j];
    const bool held_as_closed = clock.held_s == clock.joined_s;
    clock.used_open_s -= sooner_s[j];
    clock.used_total_s -= held_as_closed ? sooner_s[j] : 0;
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

// A strap's tightening ends with its corners: a step of its own.
void ease_straps(plan::Stage& stage, const StageDemand& round) {
  if (round.ease_s == 0) {
    return;
  }
  plan::Step& tighten = stage.steps.back();
  plan::Step ease = tighten;
  const double all_s = tighten.end_s - tighten.start_s;
  tighten.end_s -= all_s * round.ease_s / (round.tighten_s + round.ease_s);
  ease.kind = plan::StepKind::ease;
  ease.start_s = tighten.end_s;
  ++ease.n;
  stage.steps.push_back(std::move(ease));
}

// Turning the work over is the end of the join that it follows: a step of its own, and everybody's.
void turn_over(plan::Stage& stage, int seconds) {
  plan::Step& join = stage.steps.back();
  plan::Step turn;
  turn.n = join.n + 1;
  turn.kind = plan::StepKind::turn;
  turn.parts = join.parts;
  turn.people = join.people;
  turn.end_s = join.end_s;
  turn.wants_hand = join.wants_hand;
  join.end_s -= seconds;
  turn.start_s = join.end_s;
  stage.steps.push_back(std::move(turn));
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
        (planned.group >= 0 && planned.end_s == planned.start_s) ||
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
      if (g < solved.clamps_of_round.size()) {
        step.clamps = solved.clamps_of_round[g];
      }
      step.kind = planned.kind == plan::StepKind::snug ? round.does : planned.kind;
    }
    stage.steps.push_back(std::move(step));
    const int turns_s = planned.join >= 0 ? turning_s(solved, static_cast<std::size_t>(planned.join)) : 0;
    if (turns_s > 0) {
      turn_over(stage, turns_s);
    }
    if (planned.group >= 0 && planned.kind == plan::StepKind::tighten) {
      ease_straps(stage, solved.rounds[static_cast<std::size_t>(planned.group)]);
    }
  }
  fill_limits(stage, solved);
  return stage;
}

}  // namespace planner::stage
