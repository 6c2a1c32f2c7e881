#include "planner/stage/plan_stages.h"

#include <algorithm>
#include <span>

#include "planner/order/likeness.h"
#include "planner/stage/asked_stages.h"
#include "planner/stage/clock_ways_out.h"
#include "planner/stage/like_ends.h"
#include "planner/stage/most_helpful.h"
#include "planner/stage/slabs_first.h"
#include "planner/stage/stage_reasons.h"
#include "planner/stage/staging.h"

namespace planner::stage {
namespace {

// Where both clock and rack fail, no one change mends the plan.
std::vector<plan::WayOut> ways_out_of(const StageInput& input, const PlannedStage& one,
                                      const order::StageOrders& orders) {
  std::vector<plan::WayOut> ways = one.layout.ways_out;
  const std::vector<plan::WayOut> clock = clock_ways_out(input, one, orders);
  ways.insert(ways.end(), clock.begin(), clock.end());
  const bool both = !one.schedule.in_time() && one.layout.missing > 0;
  for (plan::WayOut& way : ways) {
    way.mends = way.mends && !both;
  }
  return ways;
}

// More parts take too long to stage where one go does.
constexpr std::size_t kMostStagedBeside = 16;

// One more stage is worth it where it gains a tenth of the limit that is tightest.
bool gains_a_tenth(const std::vector<PlannedStage>& more, const std::vector<PlannedStage>& fewer) {
  const PlannedStage& least = tightest(fewer);
  const double limit_s = least.stage.limits.empty() ? 0 : least.stage.limits.front().total_s;
  return 10 * (tightest(more).schedule.slack_s - least.schedule.slack_s) >= limit_s;
}

plan::OtherChoice choice_of(std::span<const PlannedStage> stages) {
  return {static_cast<int>(stages.size()), static_cast<double>(tightest(stages).schedule.slack_s),
          comfortable(stages)};
}

std::optional<plan::OtherChoice> one_go_beside(const PlannedStage& one) {
  return holds(one) ? std::optional(choice_of(std::span(&one, 1))) : std::nullopt;
}

// In time, on the rack and without hurry.
bool calm(const PlannedStage& one) { return holds(one) && comfortable(std::span(&one, 1)); }

// The fewest comfortable stages; where one or two more than the fewest are none either, one more if
// that is worth it.
std::vector<PlannedStage> fewest_comfortable(const StageInput& input, const PlannedStage& one,
                                             const PlanOptions& options,
                                             std::vector<PlannedStage> fewest) {
  constexpr int kMore = 2;
  if (fewest.empty() || comfortable(fewest) || input.job.parts.size() > kMostStagedBeside) {
    return fewest;
  }
  const auto count = static_cast<int>(fewest.size());
  std::vector<PlannedStage> one_more;
  for (int more = 1; more <= kMore; ++more) {
    std::vector<PlannedStage> stages =
        plan_in_stages(input, one, options, {count + more, count + more}).stages;
    if (!stages.empty() && comfortable(stages)) {
      return stages;
    }
    if (more == 1) {
      one_more = std::move(stages);
    }
  }
  return !one_more.empty() && gains_a_tenth(one_more, fewest) ? one_more : fewest;
}

// As the user asks, whether that holds or not.
std::vector<PlannedStage> as_asked(const AskedStages& asked, const StageInput& input,
                                   const PlanOptions& options) {
  std::vector<PlannedStage> stages = plan_each(asked.works, input, options);
  const auto held = [&](const PlannedStage& stage) {
    return holds(stage) && presses(stage, input.joints);
  };
  if (!input.shop.unlimited_rack && !std::ranges::all_of(stages, held)) {
    PlanOptions lightly = options;
    lightly.goal = plan::Level::light;
    std::vector<PlannedStage> light = plan_each(asked.works, input, lightly);
    if (std::ranges::all_of(light, held)) {
      stages = std::move(light);
    }
  }
  for (std::size_t s = 0; s < stages.size(); ++s) {
    stages[s].stage.name = asked.names[s];
  }
  return stages;
}

// Like ends first, where the work has any, all of it is in time, and one go is no calmer.
std::vector<PlannedStage> with_ends_first(const StageInput& input, const PlannedStage& one,
                                          const PlanOptions& options) {
  const auto ends = like_ends(input.joints, input.bounds);
  if (!ends || (options.stages > 0 && options.stages != static_cast<int>(ends->size()) + 1)) {
    return {};
  }
  std::vector<PlannedStage> stages =
      plan_each(groups_first(*ends, input.joints, input.job.parts.size()), input, options);
  if ((calm(one) && !comfortable(stages)) || !std::ranges::all_of(stages, holds)) {
    stages.clear();
  }
  return stages;
}

// Slabs first, where the work is one row of boards too long for calm hands or for the clock: as few as go
// through the planer and are all held in time, with comfort where one or two more give it.
std::vector<PlannedStage> with_slabs_first(const StageInput& input, const PlannedStage& one,
                                           const PlanOptions& options) {
  constexpr std::size_t kMore = 2;
  const auto row = board_row(input.joints, input.bounds);
  if (!row || options.stages == 1 || (calm(one) && !too_many_edges(*row, input.shop.people))) {
    return {};
  }
  std::vector<PlannedStage> best;
  std::size_t last = plan::kMostStages - 1;
  for (std::size_t count = 2; count <= last && !base::stop_requested(&options.stop); ++count) {
    const auto slabs = slabs_of(*row, count, input.shop.planer_mm);
    if (!slabs || (options.stages > 0 && options.stages != static_cast<int>(count) + 1)) {
      continue;
    }
    std::vector<PlannedStage> stages =
        plan_while(groups_first(*slabs, input.joints, input.job.parts.size()), input, options, holds);
    if (stages.empty()) {
      continue;
    }
    if (comfortable(stages)) {
      return stages;
    }
    if (best.empty()) {
      best = std::move(stages);
      last = std::min(last, count + kMore);
    }
  }
  return best;
}

// Stages instead of one go, where there are any that are better or asked for. One go that is in time
// is told beside them, and they beside it where they are no better.
std::vector<PlannedStage> stages_instead(const StageInput& input, const PlannedStage& one,
                                         const PlanOptions& options, PlannedStages& out) {
  if (options.stages > 1) {
    std::vector<PlannedStage> asked =
        plan_in_stages(input, one, options, {options.stages, options.stages}).stages;
    if (!asked.empty()) {
      out.other = one_go_beside(one);
      return asked;
    }
  }
  const bool in_time = holds(one);
  if (calm(one) || (in_time && input.job.parts.size() > kMostStagedBeside)) {
    return {};
  }
  const bool one_asked = options.stages == 1;
  Staging staging = plan_in_stages(input, one, options);
  std::vector<PlannedStage> stages =
      fewest_comfortable(input, one, options, std::move(staging.stages));
  if (!in_time && (stages.empty() || one_asked)) {
    out.ways_out = ways_out_of(input, one, staging.orders);
  }
  if (stages.empty()) {
    return {};
  }
  if (!one_asked && (!in_time || comfortable(stages))) {
    out.other = one_go_beside(one);
    return stages;
  }
  out.other = choice_of(stages);
  return {};
}

// Like ends or slabs first; else in one go where that is comfortable, else in stages where those are; else in
// whichever is in time.
PlannedStages go_or_stages(const StageInput& input, const PlanOptions& options) {
  PlannedStages out;
  PlannedStage one = plan_stage(input, one_go(input.joints, input.job.parts.size()), options, 1, 1);
  out.impossible = one.impossible;
  if (one.impossible) {
    if (one.schedule.no_order == order::NoOrder::too_heavy) {
      out.ways_out = lifting_ways_out(one.problem);
    }
  } else {
    out.ways_out = one.layout.ways_out;  // in time, with clamps that don't hold
    out.stages = with_ends_first(input, one, options);
    if (out.stages.empty()) {
      out.stages = with_slabs_first(input, one, options);
    }
    if (!out.stages.empty()) {
      out.other = one_go_beside(one);
    } else if (options.stages > 1 || !calm(one)) {
      out.stages = stages_instead(input, one, options, out);
    }
    if (!out.stages.empty()) {
      out.ways_out.clear();
      out.one_go = one.problem;
      return out;
    }
  }
  out.stages.push_back(std::move(one));
  return out;
}

// The stages asked for, and beside them what would be planned without, where that is in time.
PlannedStages instead_of(PlannedStages best, std::vector<PlannedStage> asked) {
  PlannedStages out;
  const auto impossible = std::ranges::find_if(
      asked, [](const PlannedStage& stage) { return stage.impossible.has_value(); });
  if (impossible != asked.end()) {
    out.impossible = impossible->impossible;
  }
  if (std::ranges::all_of(best.stages, holds)) {
    out.other = choice_of(best.stages);
  }
  for (const PlannedStage& stage : asked) {
    out.ways_out.insert(out.ways_out.end(), stage.layout.ways_out.begin(),
                        stage.layout.ways_out.end());
  }
  out.one_go = best.one_go ? std::move(best.one_go) : std::optional(best.stages.front().problem);
  out.stages = std::move(asked);
  return out;
}

// Lightly held, where the rack holds neither in one go nor in stages. What would bring the rest is
// told as it was.
PlannedStages held_or_lightly(const StageInput& input, const PlanOptions& options) {
  PlannedStages out = go_or_stages(input, options);
  const auto held = [&](const PlannedStages& planned) {
    return std::ranges::all_of(planned.stages, [&](const PlannedStage& stage) {
      return holds(stage) && presses(stage, input.joints);
    });
  };
  const bool short_of_clamps =
      std::ranges::any_of(out.stages, [&](const PlannedStage& stage) {
        return stage.layout.missing > 0 || !presses(stage, input.joints);
      });
  if (out.impossible || !short_of_clamps || input.shop.unlimited_rack ||
      options.goal == plan::Level::light || base::stop_requested(&options.stop)) {
    return out;
  }
  PlanOptions lightly = options;
  lightly.goal = plan::Level::light;
  PlannedStages light = go_or_stages(input, lightly);
  if (!held(light)) {
    return out;
  }
  light.ways_out = std::move(out.ways_out);
  return light;
}

}  // namespace

PlannedStages plan_stages(const StageInput& input, const PlanOptions& options) {
  PlannedStages out = held_or_lightly(input, options);
  if (const AskedStages asked = asked_stages(input.job, input.joints);
      !asked.works.empty() && !out.impossible) {
    out = instead_of(std::move(out), as_asked(asked, input, options));
  }
  // In the cold no other way out helps.
  if (std::vector<plan::WayOut> warm = cold_ways_out(input); !warm.empty()) {
    out.ways_out = std::move(warm);
  } else if (!out.impossible) {
    out.helps_most = helps_most(input, out);
  }
  return out;
}

PlannedStages put_together(const StageInput& input, const PlanOptions& options) {
  const StageWork work = one_go(input.joints, input.job.parts.size());
  PlannedStage one;
  one.problem = schedule_problem(work, input.joints, input.motions, {},
                                 {.shop = input.shop, .glue = input.glue, .bounds = input.bounds});
  one.problem.assembly.stop = options.stop ? &options.stop : nullptr;
  one.schedule.locked = order::AssemblyGraph(with_likeness(one.problem)).locked_group();
  PlannedStages out;
  if (!one.schedule.locked.empty()) {
    one.schedule.no_order = order::NoOrder::locked;
    out.impossible = impossible_reason(one.problem, one.schedule, work);
  }
  out.stages.push_back(std::move(one));
  return out;
}

}  // namespace planner::stage
