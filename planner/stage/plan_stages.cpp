#include "planner/stage/plan_stages.h"

#include <algorithm>

#include "planner/order/likeness.h"
#include "planner/stage/clock_ways_out.h"
#include "planner/stage/most_helpful.h"
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

// In one go where that is in time, else in stages where those are, else late.
PlannedStages go_or_stages(const StageInput& input, const PlanOptions& options) {
  PlannedStages out;
  PlannedStage one = plan_stage(input, one_go(input.joints, input.job.parts.size()), options, 1, 1);
  out.impossible = one.impossible;
  if (one.impossible) {
    if (one.schedule.no_order == order::NoOrder::too_heavy) {
      out.ways_out = lifting_ways_out(one.problem);
    }
  } else if (!holds(one)) {
    Staging staging = plan_in_stages(input, one, options);
    if (!staging.stages.empty()) {
      out.stages = std::move(staging.stages);
      out.one_go = one.problem;
      return out;
    }
    out.ways_out = ways_out_of(input, one, staging.orders);
  } else {
    out.ways_out = one.layout.ways_out;  // in time, with clamps that don't hold
  }
  out.stages.push_back(std::move(one));
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
  // In the cold no other way out helps.
  if (std::vector<plan::WayOut> warm = cold_ways_out(input); !warm.empty()) {
    out.ways_out = std::move(warm);
  } else if (!out.impossible) {
    out.helps_most = helps_most(input, out, options);
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
