#include "planner/stage/clock_ways_out.h"

#include <algorithm>
#include <cmath>

#include "planner/base/side_words.h"
#include "planner/order/clock_remedies.h"
#include "planner/stage/glue_trial.h"
#include "planner/tables/glue.h"

namespace planner::stage {
namespace {

// How much trouble each is, beside what the clamps' ways out cost (least first).
constexpr int kGlueFromShelf = 1, kFasterHands = 2, kHelper = 3, kCoolerShop = 4, kGlueToBuy = 5;

std::string to_spare(int slack_s) {
  return base::seconds_text(slack_s) + " to spare";
}

std::string helpers(int more) {
  return more == 1 ? "a helper" : std::to_string(more) + " helpers";
}

// Less than nothing too where nobody waits for the answer.
int slack_of(const order::ScheduleProblem& changed) {
  return base::stop_requested(changed.assembly.stop) ? -1 : solve_schedule(changed).slack_s;
}

void add_helpers(const order::ClockRemedies& remedies, int people, std::vector<plan::WayOut>& out) {
  const auto enough = std::find_if(remedies.people.begin(), remedies.people.end(),
                                   [](const order::WithPeople& w) { return w.slack_s >= 0; });
  if (enough != remedies.people.end()) {
    out.push_back({helpers(enough->people - people), to_spare(enough->slack_s), kHelper, true});
  }
}

bool serves(const work::GlueInUse& glue) {
  return glue.warmth != tables::Warmth::too_cold && glue.warmth != tables::Warmth::too_warm;
}

// The shop's own bottles, then the table's families in its order: the first of each that holds.
void add_glues(const StageInput& input, const PlannedStage& planned,
               std::vector<plan::WayOut>& out) {
  const auto try_glue = [&](const std::string& name, int trouble, const char* where) {
    const auto choice = glue_named(name, {}, input.shop).glue;
    if (!choice || choice->family == input.glue.family || !serves(*choice)) {
      return false;
    }
    const int slack =
        slack_of(with_glue(planned.problem, planned.stage.joints, input.joints, *choice));
    if (slack < 0) {
      return false;
    }
    const double longer = choice->clamp_s - input.glue.clamp_s;
    std::string gain = to_spare(slack);
    if (longer > 60) {
      gain += ", clamps on " + base::seconds_text(longer) + " longer";
    }
    out.push_back({where + choice->name, gain, trouble, true});
    return true;
  };
  for (const work::ShopGlue& bottle : input.shop.glues) {
    if (try_glue(bottle.name, kGlueFromShelf, "the other glue on the shelf: ")) {
      return;
    }
  }
  for (const tables::GlueFamily& family : tables::glue_families()) {
    if (try_glue(family.id, kGlueToBuy, "a slower glue: ")) {
      return;
    }
  }
}

std::string degrees_text(double celsius, base::Units units) {
  return units == base::Units::inch ? std::to_string(std::lround(celsius * 9 / 5 + 32)) + " F"
                                    : std::to_string(std::lround(celsius)) + " C";
}

// The least cooling, in whole degrees, at which the glue's published curve leaves enough time.
// Never below what the curve says.
void add_cooler_shop(const StageInput& input, const PlannedStage& planned,
                     std::vector<plan::WayOut>& out) {
  constexpr int kMostCooling_C = 25;
  if (input.glue.warmth != tables::Warmth::from_curve || !input.shop.temperature_C) {
    return;
  }
  for (int less = 1; less <= kMostCooling_C; ++less) {
    work::Shop cooler = input.shop;
    cooler.temperature_C = *input.shop.temperature_C - less;
    const auto glue = glue_named(input.glue.name, {}, cooler).glue;
    if (!glue || glue->warmth != tables::Warmth::from_curve) {
      return;
    }
    const int slack =
        slack_of(with_glue(planned.problem, planned.stage.joints, input.joints, *glue));
    if (slack >= 0) {
      const double longer = glue->clamp_s - input.glue.clamp_s;
      out.push_back(
          {"cool the shop, the wood and the glue to " +
               degrees_text(*cooler.temperature_C, input.job.units),
           to_spare(slack) +
               (longer > 60 ? ", clamps on " + base::seconds_text(longer) + " longer" : ""),
           kCoolerShop, true});
      return;
    }
  }
}

// Two people at one joint: each spreads one of its two faces, with half of its glue.
void add_double_spread(const PlannedStage& planned, std::vector<plan::WayOut>& out) {
  if (planned.problem.people < 2) {
    return;
  }
  const int slack = slack_of(with_double_spread(planned.problem));
  if (slack >= 0) {
    out.push_back({"spread both faces of each joint, a person a face, with half the glue on each",
                   to_spare(slack), kFasterHands, true});
  }
}

void add_faster_hands(const order::ClockRemedies& remedies, std::vector<plan::WayOut>& out) {
  constexpr int kRoller_percent = 50;  // of a brush's time on wide faces: docs/method.md
  constexpr int kHopeless_percent = 25;
  if (remedies.spread_percent && *remedies.spread_percent >= kHopeless_percent) {
    const int percent = *remedies.spread_percent;
    out.push_back({"spread in " + std::to_string(percent) + " % of the time, with a " +
                       (percent < kRoller_percent ? "roller and a second pair of hands"
                                                  : "roller or a wider brush") +
                       "; rehearse it",
                   "every joint inside its time", kFasterHands, true});
  }
}

std::string unit_list(const base::UnitSet& units, const work::Job& job) {
  constexpr int kMostNamed = 4;
  const int left_out = units.count() > kMostNamed ? units.count() - kMostNamed + 1 : 0;
  std::string text;
  int named = 0;
  for (int u = units.lowest(); u >= 0 && named < units.count() - left_out; u = units.next(u)) {
    text += (text.empty() ? "" : ", ") + job.parts[static_cast<std::size_t>(u)].name;
    ++named;
  }
  return left_out > 0 ? text + " and " + std::to_string(left_out) + " more" : text;
}

// A join that alone outlasts the glue: no staging helps, and the user should know which.
void add_unavoidable(const StageInput& input, const order::StageOrders& orders,
                     std::vector<plan::WayOut>& out) {
  if (orders.unavoidable && orders.unavoidable->short_by_s > 0) {
    const order::UnavoidableJoin& join = *orders.unavoidable;
    out.push_back({"make the join of " + unit_list(join.first, input.job) + " to " +
                       unit_list(join.second, input.job) + " smaller: all its joints close at once",
                   "it alone is over by " + base::seconds_text(join.short_by_s) + " in any order",
                   4, false});
  }
}

}  // namespace

std::vector<plan::WayOut> lifting_ways_out(const order::ScheduleProblem& problem) {
  order::ScheduleProblem helped = problem;
  for (helped.people = problem.people + 1; helped.people <= work::kMostPeople; ++helped.people) {
    const order::Schedule schedule = solve_schedule(helped);
    if (schedule.status != plan::Proof::impossible) {
      return {{helpers(helped.people - problem.people), "every join can be lifted", kHelper,
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
  const order::ClockRemedies remedies = clock_remedies(planned.problem, planned.schedule);
  add_glues(input, planned, out);
  add_double_spread(planned, out);
  add_faster_hands(remedies, out);
  add_cooler_shop(input, planned, out);
  add_helpers(remedies, planned.problem.people, out);
  add_unavoidable(input, orders, out);
  return out;
}

}  // namespace planner::stage
