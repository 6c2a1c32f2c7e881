// A sound plan, damaged in one place: the verifier must see it.
#include <algorithm>
#include <functional>

#include <doctest/doctest.h>

#include "fixture_plan.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

using namespace planner;

namespace {

plan::Step& step_of(plan::Plan& plan, plan::StepKind kind) {
  auto& steps = plan.stages.front().steps;
  return *std::find_if(steps.begin(), steps.end(),
                       [&](const plan::Step& step) { return step.kind == kind; });
}

struct Damage {
  std::string what;
  std::function<void(plan::Plan&)> done;
};

const Damage kDamages[] = {
    {"a clamp moved off its wall", [](plan::Plan& p) { p.stages[0].clamps[0].at.x += 100; }},
    {"a clamp pushed into the work",
     [](plan::Plan& p) {
       plan::PlannedClamp& c = p.stages[0].clamps[0];
       c.at = c.at + 5.0 * c.axis;
     }},
    {"a clamp pre-set too narrow", [](plan::Plan& p) { p.stages[0].clamps[0].opening_mm -= 60; }},
    {"a clamp asked for ten times the force",
     [](plan::Plan& p) { p.stages[0].clamps[0].force_N *= 10; }},
    {"a pad too small for its force",
     [](plan::Plan& p) {
       plan::PlannedClamp& c = p.stages[0].clamps[0];
       c.pad.along_mm = 5;
       c.pad.across_mm = 5;
       c.caul.reset();
     }},
    {"two clamps in one place",
     [](plan::Plan& p) { p.stages[0].clamps[1].at = p.stages[0].clamps[0].at; }},
    {"a clamp of another kind than on the rack",
     [](plan::Plan& p) { p.stages[0].clamps[0].kind = "spring"; }},
    {"more clamps of a row than there are",
     [](plan::Plan& p) {
       const auto row = p.stages[0].clamps[0].owned;
       const plan::PlannedClamp first = p.stages[0].clamps[0];
       for (int i = 0; i < 20; ++i) {
         plan::PlannedClamp more = first;
         more.owned = row;
         more.at = more.at + (2.0 + i) * geometry::kAxis[2];
         p.stages[0].clamps.push_back(more);
       }
     }},
    {"bars let through one another",
     [](plan::Plan& p) {
       std::vector<plan::PlannedClamp>& clamps = p.stages[0].clamps;
       clamps[0].bar_side = clamps[2].bar_side;
       clamps[0].at = clamps[2].at + 10.0 * geometry::kAxis[2];
     }},
    {"an area told otherwise",
     [](plan::Plan& p) { p.joints[3].faces[0].contact.area_mm2 *= 1.01; }},
    {"a joint left out", [](plan::Plan& p) { p.joints.pop_back(); }},
    {"a joint told dry", [](plan::Plan& p) { p.joints[0].glued = false; }},
    {"glue that doesn't add up", [](plan::Plan& p) { p.glue.net_g *= 0.9; }},
    {"too little glue ready", [](plan::Plan& p) { p.glue.ready_ml = p.glue.net_ml; }},
    {"a part told smaller", [](plan::Plan& p) { p.parts[2].volume_mm3 *= 0.99; }},
    {"a wall brought in from above",
     [](plan::Plan& p) {
       step_of(p, plan::StepKind::join).motion->direction = {0, 0, -1};
     }},
    {"clamped work that isn't turned over for its lid",
     [](plan::Plan& p) { step_of(p, plan::StepKind::turn).kind = plan::StepKind::wait; }},
    {"clamped work brought to its bottom",
     [](plan::Plan& p) {
       auto& steps = p.stages[0].steps;
       const auto turn = std::ranges::find(steps, plan::StepKind::turn, &plan::Step::kind);
       plan::Step& join = *(turn - 1);
       std::vector<work::PartId> rest;
       std::ranges::copy_if(join.parts, std::back_inserter(rest), [&](work::PartId part) {
         return std::ranges::count(join.motion->moving, part) == 0;
       });
       join.motion->moving = rest;
       join.motion->direction = -join.motion->direction;
     }},
    {"a join left out",
     [](plan::Plan& p) {
       auto& steps = p.stages[0].steps;
       steps.erase(std::find_if(steps.begin(), steps.end(), [](const plan::Step& s) {
         return s.kind == plan::StepKind::join;
       }));
       int n = 0;
       for (plan::Step& step : steps) {
         step.n = ++n;
       }
     }},
    {"a spread after its join",
     [](plan::Plan& p) {
       plan::Step& s = step_of(p, plan::StepKind::spread);
       s.start_s += 2000;
       s.end_s += 2000;
     }},
    {"steps out of turn",
     [](plan::Plan& p) { std::swap(p.stages[0].steps[0], p.stages[0].steps[4]); }},
    {"a person who isn't there",
     [](plan::Plan& p) {
       step_of(p, plan::StepKind::join).people = {1, 2};
     }},
    {"two things at once", [](plan::Plan& p) { step_of(p, plan::StepKind::join).start_s -= 10; }},
    {"tightening before the check",
     [](plan::Plan& p) {
       plan::Step& s = step_of(p, plan::StepKind::tighten);
       s.start_s = 1;
       s.end_s = 2;
     }},
    {"slack that isn't there", [](plan::Plan& p) { p.stages[0].slack_s += 30; }},
    {"a limit told otherwise", [](plan::Plan& p) { p.stages[0].limits[0].used_total_s -= 60; }},
    {"pressure out of nothing",
     [](plan::Plan& p) {
       plan::LinePressure& line = p.pressure[0];
       line.mean_MPa *= 20;
       line.max_MPa *= 20;
     }},
    {"a line told held that isn't",
     [](plan::Plan& p) {
       for (plan::LinePressure& line : p.pressure) {
         line.level = plan::Level::hold;
         line.min_MPa = line.hold_MPa / 2;
       }
     }},
    {"a line that only strong hands hold",
     [](plan::Plan& p) {
       for (plan::LinePressure& line : p.pressure) {
         if (line.level == plan::Level::hold || line.level == plan::Level::full) {
           line.min_MPa = std::min(line.mean_MPa, 1.2 * line.hold_MPa);
         }
       }
     }},
    {"a joint nobody presses", [](plan::Plan& p) {
       std::erase_if(p.pressure, [](const plan::LinePressure& l) { return l.joint == 0; });
     }}};

// To the trial of the user's own clamps.
const Damage kPlacedDamages[] = {
    {"a clamp that isn't in the file", [](plan::Plan& p) { p.placed->clamps[0].n = 9; }},
    {"a clamp moved", [](plan::Plan& p) { p.placed->clamps[0].at.x += 1; }},
    {"a clamp turned", [](plan::Plan& p) { p.placed->clamps[0].axis = geometry::kAxis[0]; }},
    {"a clamp drawn harder", [](plan::Plan& p) { p.placed->clamps[1].force_N *= 2; }},
    {"a pad that bears on more", [](plan::Plan& p) { p.placed->clamps[1].pad.along_mm *= 2; }},
    {"pressure out of nothing",
     [](plan::Plan& p) {
       p.placed->pressure[0].mean_MPa *= 50;
       p.placed->pressure[0].max_MPa *= 50;
     }},
    {"a line told held that isn't",
     [](plan::Plan& p) { p.placed->pressure[0].level = plan::Level::hold; }},
    {"all told held", [](plan::Plan& p) { p.placed->holds = true; }},
    {"a joint left out",
     [](plan::Plan& p) {
       const work::JointId joint = p.placed->pressure[0].joint;
       std::erase_if(p.placed->pressure,
                     [&](const plan::LinePressure& l) { return l.joint == joint; });
     }},
    {"nothing found, and yet not held", [](plan::Plan& p) { p.placed->findings.clear(); }},
    {"the trial left out", [](plan::Plan& p) { p.placed.reset(); }}};

std::vector<plan::Step*> snug_rounds(plan::Stage& stage) {
  std::vector<plan::Step*> rounds;
  for (plan::Step& step : stage.steps) {
    if (step.kind == plan::StepKind::snug) {
      rounds.push_back(&step);
    }
  }
  return rounds;
}

std::ptrdiff_t without_way(const FixturePlan& f, const plan::Plan& plan) {
  const std::vector<std::string> seen = verify::verify_plan(f.job, f.shop, plan);
  return std::count_if(seen.begin(), seen.end(), [](const std::string& what) {
    return what.find("can't be brought to its place past clamp") != std::string::npos;
  });
}

}  // namespace

TEST_SUITE("plans/damage") {
  TEST_CASE("the verifier sees every damage done to the trial of one's own clamps") {
    const FixturePlan& f = fixture_plan("placed_on_chest", "enough.toml");
    REQUIRE(f.plan.placed);
    const std::vector<std::string> sound = verify::verify_plan(f.job, f.shop, f.plan);
    CAPTURE(sound.empty() ? std::string() : sound.front());
    REQUIRE(sound.empty());
    for (const Damage& damage : kPlacedDamages) {
      CAPTURE(damage.what);
      plan::Plan plan = f.plan;
      damage.done(plan);
      CHECK_FALSE(verify::verify_plan(f.job, f.shop, plan).empty());
    }
  }
  TEST_CASE("the verifier sees every damage done to a sound plan") {
    const FixturePlan& f = fixture_plan("hive_tool_chest", "enough.toml");
    REQUIRE(verify::verify_plan(f.job, f.shop, f.plan).empty());
    for (const Damage& damage : kDamages) {
      CAPTURE(damage.what);
      plan::Plan plan = f.plan;
      damage.done(plan);
      CHECK_FALSE(verify::verify_plan(f.job, f.shop, plan).empty());
    }
  }
  // The chest's clamps across find no way in past those that press its lid on, where these stand close.
  TEST_CASE("the verifier sees clamps that find no way to their places") {
    const FixturePlan& f = fixture_plan("hive_tool_chest", "enough.toml");
    plan::Plan plan = f.plan;
    plan::Stage& stage = plan.stages[0];
    const std::vector<plan::Step*> rounds = snug_rounds(stage);
    REQUIRE(rounds.size() == 3);
    REQUIRE(without_way(f, plan) == 0);
    for (const plan::PlannedClamp& clamp : std::vector(stage.clamps)) {
      for (const double by_mm : {-75.0, -50.0, 50.0, 75.0}) {
        if (clamp.axis.z > 0.99) {
          plan::PlannedClamp& beside = stage.clamps.emplace_back(clamp);
          beside.n = static_cast<int>(stage.clamps.size());
          beside.at.x += by_mm;
          rounds[2]->clamps.push_back(beside.n);
        }
      }
    }
    std::swap(rounds[1]->clamps, rounds[2]->clamps);
    CHECK(without_way(f, plan) > 0);
  }
}
