#include "planner/stage/most_helpful.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "planner/stage/glue_trial.h"
#include "planner/stage/staging.h"
#include "planner/work/step_seconds.h"

namespace planner::stage {
namespace {

constexpr int kWorthTelling_s = 15;  // what orders are told apart by

plan::HelpsMost helping(plan::WayOutChange change, double slack_s) {
  return {{std::move(change), 0, slack_s >= 0}, slack_s, 0};
}

// Every stage's clock worked out again, its problem changed.
std::optional<int> slack_with(
    const PlannedStages& planned,
    const std::function<void(order::ScheduleProblem&, const PlannedStage&)>& change) {
  std::optional<int> least;
  for (const PlannedStage& stage : planned.stages) {
    order::ScheduleProblem problem = stage.problem;
    change(problem, stage);
    if (base::stop_requested(problem.assembly.stop)) {
      return std::nullopt;
    }
    const order::Schedule schedule = solve_schedule(problem, stage.schedule.trial_effort());
    if (schedule.status == plan::Proof::impossible) {
      return std::nullopt;
    }
    least = std::min(least.value_or(schedule.slack_s), schedule.slack_s);
  }
  return least;
}

std::optional<plan::HelpsMost> with_helper(const PlannedStages& planned) {
  if (planned.stages.front().problem.people >= work::kMostPeople) {
    return std::nullopt;
  }
  const auto slack = slack_with(
      planned, [](order::ScheduleProblem& problem, const PlannedStage&) { ++problem.people; });
  return slack ? std::optional(helping(plan::HelpersWay{1, double(*slack)}, *slack))
               : std::nullopt;
}

std::optional<plan::HelpsMost> with_roller(const StageInput& input, const PlannedStages& planned) {
  const work::Pace rolled = work::with_roller(input.shop.pace);
  const auto slack =
      slack_with(planned, [&](order::ScheduleProblem& problem, const PlannedStage& stage) {
        for (std::size_t j = 0; j < problem.joints.size(); ++j) {
          problem.joints[j].spread_s = spread_seconds(input.joints[stage.stage.joints[j]], rolled);
        }
      });
  return slack ? std::optional(helping(plan::RollerWay{double(*slack)}, *slack)) : std::nullopt;
}

// The shelf's, or the table's where the shelf has none: the first with comfort, as nobody changes to
// epoxy for more of it than he needs; else the one that gives most.
std::optional<plan::HelpsMost> with_glue(const StageInput& input, const PlannedStages& planned) {
  const std::vector<GlueTrial> trials = try_glues(input, planned);
  for (const bool on_shelf : {true, false}) {
    const GlueTrial* best = nullptr;
    for (const GlueTrial& trial : trials) {
      const bool serves = !trial.jobs_own && trial.on_shelf == on_shelf && trial.against.empty();
      const bool better = best == nullptr || (!best->comfortable && (trial.comfortable ||
                                                                     trial.slack_s > best->slack_s));
      best = serves && better ? &trial : best;
    }
    if (best != nullptr && best->slack_s >= tightest(planned.stages).schedule.slack_s + kWorthTelling_s) {
      const double slack_s = best->slack_s;
      const double longer_s = best->glue.clamp_s - input.glue.clamp_s;
      return helping(plan::GlueWay{best->glue.name, on_shelf, slack_s, longer_s}, slack_s);
    }
  }
  return std::nullopt;
}

std::optional<plan::HelpsMost> with_stages(const PlannedStages& planned) {
  if (!planned.other || planned.other->stages < 2) {
    return std::nullopt;
  }
  const double slack_s = planned.other->slack_s;
  return helping(plan::StagesWay{planned.other->stages, slack_s}, slack_s);
}

}  // namespace

std::optional<plan::HelpsMost> helps_most(const StageInput& input, const PlannedStages& planned) {
  if (comfortable(planned.stages)) {
    return std::nullopt;
  }
  const int before_s = tightest(planned.stages).schedule.slack_s;
  std::optional<plan::HelpsMost> most;
  for (const auto& way : {with_roller(input, planned), with_helper(planned),
                          with_glue(input, planned), with_stages(planned)}) {
    const double least = most ? most->slack_s + 1 : before_s + kWorthTelling_s;
    most = way && way->slack_s >= least ? way : most;
  }
  if (most) {
    most->before_s = before_s;
  }
  return most;
}

}  // namespace planner::stage
