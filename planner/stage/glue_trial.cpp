#include "planner/stage/glue_trial.h"

#include <algorithm>
#include <optional>

#include "planner/order/comfort.h"
#include "planner/stage/plan_stages.h"
#include "planner/work/joint_fit.h"
#include "planner/work/touching.h"

namespace planner::stage {
namespace {

using Kind = GlueObstacle::Kind;

bool takes_jobs_glue(const work::Joint& joint) {
  return joint.glued && joint.glue.empty();
}

struct Clock {
  int slack_s = 0, limit_s = 0;
  std::size_t joint = 0;  // the tightest, by id
  bool open_binds = false;
  bool comfortable = false;
};

// Nothing is tight where nothing is glued, nor where nobody waits for the answer.
std::optional<Clock> clock_with(const order::ScheduleProblem& problem,
                                const std::vector<work::JointId>& ids, const StageInput& input,
                                const work::GlueInUse& glue, const order::Effort& effort,
                                const order::KnownAssemblies& known) {
  if (base::stop_requested(problem.assembly.stop)) {
    return std::nullopt;
  }
  const order::ScheduleProblem changed = with_glue(problem, ids, input.joints, glue);
  const order::Schedule schedule = solve_schedule(changed, effort, known);
  if (schedule.tightest < 0) {
    return std::nullopt;
  }
  const auto j = static_cast<std::size_t>(schedule.tightest);
  const order::JointTime& time = changed.joints[j];
  const order::JointClock& used = schedule.clocks[j];
  const bool open = open_binds(time, used);
  return Clock{schedule.slack_s, open ? time.open_s : time.total_s, ids[j], open,
               order::comfortable(changed, schedule)};
}

void judge_clock(const StageInput& input, const PlannedStages& planned,
                 const order::KnownAssemblies& known, GlueTrial& trial) {
  std::optional<Clock> worst;
  trial.comfortable = true;
  for (const PlannedStage& stage : planned.stages) {
    const auto clock = clock_with(stage.problem, stage.stage.joints, input, trial.glue,
                                  stage.schedule.trial_effort(), known);
    trial.comfortable = trial.comfortable && (!clock || clock->comfortable);
    if (clock && (!worst || clock->slack_s < worst->slack_s)) {
      worst = clock;
    }
  }
  if (!worst) {
    return;
  }
  trial.slack_s = worst->slack_s;
  trial.limit_s = worst->limit_s;
  if (worst->slack_s < 0) {
    trial.against.push_back({worst->open_binds ? Kind::open_time : Kind::total_time, worst->joint,
                             static_cast<double>(worst->limit_s - worst->slack_s),
                             static_cast<double>(worst->limit_s)});
  }
  if (planned.one_go) {
    const auto whole =
        clock_with(*planned.one_go, one_go(input.joints, input.job.parts.size()).joints, input,
                   trial.glue, order::Effort::trial(), known);
    trial.one_go = whole && whole->slack_s >= 0;
  }
}

void judge_warmth(const StageInput& input, GlueTrial& trial) {
  if (trial.glue.warmth == tables::Warmth::too_cold) {
    trial.against.push_back(
        {Kind::too_cold, 0, *input.shop.temperature_C, *trial.glue.min_temperature_C});
  } else if (trial.glue.warmth == tables::Warmth::too_warm) {
    trial.against.push_back({Kind::too_warm, 0, *input.shop.temperature_C, 0});
  }
}

void judge_gap(const StageInput& input, GlueTrial& trial) {
  const double most = work::touching_mm(input.job, trial.glue.max_gap_mm);
  std::optional<GlueObstacle> widest;
  for (work::JointId id = 0; id < input.joints.size(); ++id) {
    for (const work::GlueFace& face : input.joints[id].faces) {
      const double gap_mm = face.contact.gap_mm;
      if (takes_jobs_glue(input.joints[id]) && gap_mm > most + 1e-9 &&
          (!widest || gap_mm > widest->is)) {
        widest = GlueObstacle{Kind::gap, id, gap_mm, most};
      }
    }
  }
  if (widest) {
    trial.against.push_back(*widest);
  }
}

// The clamps were laid out for the job's glue; one that wants more may find them too few.
void judge_pressure(const StageInput& input, const PlannedStages& planned, GlueTrial& trial) {
  for (const PlannedStage& stage : planned.stages) {
    for (const clamps::layout::PressingAxis& round : stage.layout.rounds) {
      for (const plan::LinePressure& line : round.lines) {
        const work::Joint& joint = input.joints[line.joint];
        const bool is_main = takes_jobs_glue(joint) && main_face(joint) == line.face;
        const bool held = line.level == plan::Level::hold || line.level == plan::Level::full;
        // A strap is asked for less than clamps are, whatever the glue.
        const double asked_MPa =
            line.hold_MPa < input.glue.hold_MPa ? line.hold_MPa : trial.glue.hold_MPa;
        if (is_main && held && line.min_MPa < asked_MPa - 1e-9) {
          trial.against.push_back({Kind::pressure, line.joint, line.min_MPa, asked_MPa});
          return;
        }
      }
    }
  }
}

GlueTrial trial_of(const StageInput& input, const PlannedStages& planned,
                   const work::GlueInUse& glue, const order::KnownAssemblies& known) {
  GlueTrial trial;
  trial.glue = glue;
  trial.need = glue_quantity(input.joints, glue, input.shop.pace);
  judge_clock(input, planned, known, trial);
  judge_warmth(input, trial);
  judge_gap(input, trial);
  judge_pressure(input, planned, trial);
  if (!trial.need.enough_left) {
    trial.against.push_back(
        {Kind::bottle, 0, trial.need.net_ml + trial.need.waste_ml, *trial.glue.left_ml});
  }
  return trial;
}

}  // namespace

order::ScheduleProblem with_glue(order::ScheduleProblem problem,
                                 std::span<const work::JointId> stage_joints,
                                 std::span<const work::Joint> joints, const work::GlueInUse& glue) {
  for (std::size_t j = 0; j < problem.joints.size(); ++j) {
    if (takes_jobs_glue(joints[stage_joints[j]])) {
      order::JointTime& time = problem.joints[j];
      time.open_s = std::max(1, static_cast<int>(glue.open_s));
      time.total_s = static_cast<int>(glue.total_s);
      time.closed_s = glue.shared_budget ? time.total_s : 0;
      time.wait_s = static_cast<int>(glue.min_wait_s);
    }
  }
  return problem;
}

std::vector<GlueTrial> try_glues(const StageInput& input, const PlannedStages& planned) {
  std::vector<GlueTrial> trials;
  const order::KnownAssemblies known;
  if (planned.impossible) {
    return trials;
  }
  const auto add = [&](const work::GlueInUse& glue, bool jobs_own, bool on_shelf) {
    const bool tried = std::any_of(trials.begin(), trials.end(), [&](const GlueTrial& trial) {
      return trial.glue.name == glue.name && trial.glue.family == glue.family;
    });
    if (!tried) {
      trials.push_back(trial_of(input, planned, glue, known));
      trials.back().jobs_own = jobs_own;
      trials.back().on_shelf = on_shelf;
    }
  };
  const auto on_shelf = [&](const work::GlueInUse& glue) {
    return std::any_of(input.shop.glues.begin(), input.shop.glues.end(),
                       [&](const work::ShopGlue& bottle) { return bottle.name == glue.name; });
  };
  add(input.glue, true, on_shelf(input.glue));
  for (const work::ShopGlue& bottle : input.shop.glues) {
    if (const auto glue = glue_named(bottle.name, bottle.place, input.shop).glue) {
      add(*glue, false, true);
    }
  }
  // A family that stands on the shelf goes by its label.
  for (const tables::GlueFamily& family : tables::glue_families()) {
    const bool told = std::any_of(trials.begin(), trials.end(), [&](const GlueTrial& trial) {
      return trial.glue.family == family.id;
    });
    const auto glue = glue_named(family.id, {}, input.shop).glue;
    if (!told && glue) {
      add(*glue, false, false);
    }
  }
  return trials;
}

}  // namespace planner::stage
