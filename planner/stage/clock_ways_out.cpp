#include "planner/stage/clock_ways_out.h"

#include <algorithm>
#include <cmath>

#include "planner/order/clock_remedies.h"
#include "planner/stage/glue_trial.h"
#include "planner/tables/glue.h"

namespace planner::stage {
namespace {

// How much trouble each is, beside what the clamps' ways out cost (least first).
constexpr int kGlueFromShelf = 1, kFasterHands = 2, kHelper = 3, kCoolerShop = 4, kWarmerShop = 2,
              kSmallerJoin = 4, kGlueToBuy = 5;

// Less than nothing too where nobody waits for the answer.
int slack_of(const order::ScheduleProblem& changed, const order::Schedule& as_it_is,
             const order::KnownAssemblies& known) {
  return base::stop_requested(changed.assembly.stop)
             ? -1
             : solve_schedule(changed, as_it_is.trial_effort(), known).slack_s;
}

void add_helpers(const order::ClockRemedies& remedies, int people, std::vector<plan::WayOut>& out) {
  const auto enough = std::find_if(remedies.people.begin(), remedies.people.end(),
                                   [](const order::WithPeople& w) { return w.slack_s >= 0; });
  if (enough != remedies.people.end()) {
    out.push_back({plan::HelpersWay{enough->people - people, enough->slack_s}, kHelper, true});
  }
}

bool serves(const work::GlueInUse& glue) {
  return glue.warmth != tables::Warmth::too_cold && glue.warmth != tables::Warmth::too_warm;
}

// The shop's own bottles, then the table's families in its order, until one is taken: `take` is given
// the name and whether it is on the shelf.
template <class Take>
void first_glue(const work::Shop& shop, const Take& take) {
  const bool on_shelf = std::ranges::any_of(
      shop.glues, [&](const work::ShopGlue& bottle) { return take(bottle.name, true); });
  if (!on_shelf) {
    static_cast<void>(
        std::ranges::any_of(tables::glue_families(), [&](const tables::GlueFamily& family) {
          return take(family.id, false);
        }));
  }
}

// The first glue that holds.
void add_glues(const StageInput& input, const PlannedStage& planned,
               const order::KnownAssemblies& known, std::vector<plan::WayOut>& out) {
  const auto try_glue = [&](const std::string& name, bool on_shelf) {
    const auto choice = glue_named(name, {}, input.shop).glue;
    if (!choice || choice->family == input.glue.family || !serves(*choice)) {
      return false;
    }
    const int slack =
        slack_of(with_glue(planned.problem, planned.stage.joints, input.joints, *choice), planned.schedule, known);
    if (slack < 0) {
      return false;
    }
    out.push_back({plan::GlueWay{choice->name, on_shelf, static_cast<double>(slack),
                                 choice->clamp_s - input.glue.clamp_s},
                   on_shelf ? kGlueFromShelf : kGlueToBuy, true});
    return true;
  };
  first_glue(input.shop, try_glue);
}

// The least cooling, in whole degrees, at which the glue's times leave enough: by its published
// curve, and never below what that says, or by the share that heat leaves of them.
void add_cooler_shop(const StageInput& input, const PlannedStage& planned,
                     const order::KnownAssemblies& known, std::vector<plan::WayOut>& out) {
  constexpr int kMostCooling_C = 25;
  const bool by_curve = input.glue.warmth == tables::Warmth::from_curve;
  if (!input.shop.temperature_C || (!by_curve && input.glue.times_share == 1)) {
    return;
  }
  for (int less = 1; less <= kMostCooling_C; ++less) {
    work::Shop cooler = input.shop;
    cooler.temperature_C = *input.shop.temperature_C - less;
    const auto glue = glue_named(input.glue.name, {}, cooler).glue;
    if (!glue || (by_curve ? glue->warmth != tables::Warmth::from_curve
                           : tables::heat_share(*cooler.temperature_C + 1) == 1)) {
      return;
    }
    const int slack =
        slack_of(with_glue(planned.problem, planned.stage.joints, input.joints, *glue), planned.schedule, known);
    if (slack >= 0) {
      out.push_back({plan::CoolerWay{*cooler.temperature_C, static_cast<double>(slack),
                                     glue->clamp_s - input.glue.clamp_s},
                     kCoolerShop, true});
      return;
    }
  }
}

// Two people at one joint: each spreads one of its two faces, with half of its glue.
void add_double_spread(const PlannedStage& planned, const order::KnownAssemblies& known,
                       std::vector<plan::WayOut>& out) {
  if (planned.problem.people < 2) {
    return;
  }
  const int slack = slack_of(with_double_spread(planned.problem), planned.schedule, known);
  if (slack >= 0) {
    out.push_back({plan::DoubleSpreadWay{static_cast<double>(slack)}, kFasterHands, true});
  }
}

void add_faster_hands(const order::ClockRemedies& remedies, std::vector<plan::WayOut>& out) {
  constexpr int kRoller_percent = 50;  // of a brush's time on wide faces: docs/method.md
  constexpr int kHopeless_percent = 25;
  if (remedies.spread_percent && *remedies.spread_percent >= kHopeless_percent) {
    const int percent = *remedies.spread_percent;
    out.push_back({plan::FasterSpreadWay{percent, percent < kRoller_percent}, kFasterHands, true});
  }
}

std::vector<work::PartId> parts_of(const base::UnitSet& units) {
  std::vector<work::PartId> parts;
  for (int u = units.lowest(); u >= 0; u = units.next(u)) {
    parts.push_back(static_cast<work::PartId>(u));
  }
  return parts;
}

// A join that alone outlasts the glue: no staging helps, and the user should know which.
void add_unavoidable(const order::StageOrders& orders, std::vector<plan::WayOut>& out) {
  if (orders.unavoidable && orders.unavoidable->short_by_s > 0) {
    const order::UnavoidableJoin& join = *orders.unavoidable;
    out.push_back({plan::SmallerJoinWay{parts_of(join.first), parts_of(join.second),
                                        static_cast<double>(join.short_by_s)},
                   kSmallerJoin, false});
  }
}

// The first glue that sets so cold.
void add_cold_glue(const StageInput& input, std::vector<plan::WayOut>& out) {
  const auto try_glue = [&](const std::string& name, bool on_shelf) {
    const auto choice = glue_named(name, {}, input.shop).glue;
    if (!choice || !choice->min_temperature_C || !serves(*choice)) {
      return false;
    }
    out.push_back({plan::ColdGlueWay{choice->name, on_shelf, *choice->min_temperature_C},
                   on_shelf ? kGlueFromShelf : kGlueToBuy, true});
    return true;
  };
  first_glue(input.shop, try_glue);
}

}  // namespace

std::vector<plan::WayOut> cold_ways_out(const StageInput& input) {
  std::vector<plan::WayOut> out;
  if (input.glue.warmth == tables::Warmth::too_cold) {
    add_cold_glue(input, out);
    out.push_back({plan::WarmerWay{*input.glue.min_temperature_C}, kWarmerShop, true});
  }
  return out;
}

std::vector<plan::WayOut> lifting_ways_out(const order::ScheduleProblem& problem) {
  order::ScheduleProblem helped = problem;
  const order::KnownAssemblies known;
  for (helped.people = problem.people + 1; helped.people <= work::kMostPeople; ++helped.people) {
    const order::Schedule schedule = solve_schedule(helped, order::Effort::trial(), known);
    if (schedule.status != plan::Proof::impossible) {
      return {{plan::HelpersWay{helped.people - problem.people, std::nullopt}, kHelper,
               schedule.in_time()}};
    }
  }
  return {};
}

std::vector<plan::WayOut> clock_ways_out(const StageInput& input, const PlannedStage& planned,
                                         const order::StageOrders& orders) {
  std::vector<plan::WayOut> out;
  if (planned.schedule.in_time()) {
    return out;
  }
  const order::KnownAssemblies known;
  const order::ClockRemedies remedies =
      clock_remedies(planned.problem, planned.schedule, planned.schedule.trial_effort(), known);
  add_glues(input, planned, known, out);
  add_double_spread(planned, known, out);
  add_faster_hands(remedies, out);
  add_cooler_shop(input, planned, known, out);
  add_helpers(remedies, planned.problem.people, out);
  add_unavoidable(orders, out);
  return out;
}

}  // namespace planner::stage
