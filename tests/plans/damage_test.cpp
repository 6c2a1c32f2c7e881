// A sound plan, damaged in one place: the verifier must see it.
#include <algorithm>
#include <functional>

#include <doctest/doctest.h>

#include "fixture_plan.h"
#include "planner/verify_plan.h"

using namespace planner;

namespace {

Step& step_of(Plan& plan, StepKind kind) {
  auto& steps = plan.stages.front().steps;
  return *std::find_if(steps.begin(), steps.end(),
                       [&](const Step& step) { return step.kind == kind; });
}

struct Damage {
  std::string what;
  std::function<void(Plan&)> done;
};

const Damage kDamages[] = {
    {"a clamp moved off its wall", [](Plan& p) { p.stages[0].clamps[0].at.x += 100; }},
    {"a clamp pushed into the work",
     [](Plan& p) {
       PlannedClamp& c = p.stages[0].clamps[0];
       c.at = c.at + 5.0 * c.axis;
     }},
    {"a clamp pre-set too narrow", [](Plan& p) { p.stages[0].clamps[0].opening_mm -= 60; }},
    {"a clamp asked for ten times the force", [](Plan& p) { p.stages[0].clamps[0].force_N *= 10; }},
    {"a pad too small for its force",
     [](Plan& p) {
       PlannedClamp& c = p.stages[0].clamps[0];
       c.pad.along_mm = 5;
       c.pad.across_mm = 5;
       c.caul.reset();
     }},
    {"two clamps in one place",
     [](Plan& p) { p.stages[0].clamps[1].at = p.stages[0].clamps[0].at; }},
    {"a clamp of another kind than on the rack",
     [](Plan& p) { p.stages[0].clamps[0].kind = "spring"; }},
    {"more clamps of a row than there are",
     [](Plan& p) {
       const auto row = p.stages[0].clamps[0].owned;
       const PlannedClamp first = p.stages[0].clamps[0];
       for (int i = 0; i < 20; ++i) {
         PlannedClamp more = first;
         more.owned = row;
         more.at = more.at + (2.0 + i) * geometry::kAxis[2];
         p.stages[0].clamps.push_back(more);
       }
     }},
    {"bars let through one another",
     [](Plan& p) {
       std::vector<PlannedClamp>& clamps = p.stages[0].clamps;
       clamps[0].bar_side = clamps[2].bar_side;
       clamps[0].at = clamps[2].at + 10.0 * geometry::kAxis[2];
     }},
    {"an area told otherwise", [](Plan& p) { p.joints[3].faces[0].contact.area_mm2 *= 1.01; }},
    {"a joint left out", [](Plan& p) { p.joints.pop_back(); }},
    {"a joint told dry", [](Plan& p) { p.joints[0].glued = false; }},
    {"glue that doesn't add up", [](Plan& p) { p.glue.net_g *= 0.9; }},
    {"too little glue ready", [](Plan& p) { p.glue.ready_ml = p.glue.net_ml; }},
    {"a part told smaller", [](Plan& p) { p.parts[2].volume_mm3 *= 0.99; }},
    {"a wall brought in from above",
     [](Plan& p) {
       step_of(p, StepKind::join).motion->direction = {0, 0, -1};
     }},
    {"a join left out",
     [](Plan& p) {
       auto& steps = p.stages[0].steps;
       steps.erase(std::find_if(steps.begin(), steps.end(),
                                [](const Step& s) { return s.kind == StepKind::join; }));
       int n = 0;
       for (Step& step : steps) {
         step.n = ++n;
       }
     }},
    {"a spread after its join",
     [](Plan& p) {
       Step& s = step_of(p, StepKind::spread);
       s.start_s += 2000;
       s.end_s += 2000;
     }},
    {"steps out of turn", [](Plan& p) { std::swap(p.stages[0].steps[0], p.stages[0].steps[4]); }},
    {"a person who isn't there",
     [](Plan& p) {
       step_of(p, StepKind::join).people = {1, 2};
     }},
    {"two things at once", [](Plan& p) { step_of(p, StepKind::join).start_s -= 10; }},
    {"tightening before the check",
     [](Plan& p) {
       Step& s = step_of(p, StepKind::tighten);
       s.start_s = 1;
       s.end_s = 2;
     }},
    {"slack that isn't there", [](Plan& p) { p.stages[0].slack_s += 30; }},
    {"a limit told otherwise", [](Plan& p) { p.stages[0].limits[0].used_total_s -= 60; }},
    {"pressure out of nothing",
     [](Plan& p) {
       LinePressure& line = p.pressure[0];
       line.mean_MPa *= 20;
       line.max_MPa *= 20;
     }},
    {"a line told held that isn't",
     [](Plan& p) {
       for (LinePressure& line : p.pressure) {
         line.level = Level::hold;
         line.min_MPa = line.hold_MPa / 2;
       }
     }},
    {"a joint nobody presses", [](Plan& p) {
       std::erase_if(p.pressure, [](const LinePressure& l) { return l.joint == 0; });
     }}};

// To the trial of the user's own clamps.
const Damage kPlacedDamages[] = {
    {"a clamp that isn't in the file", [](Plan& p) { p.placed->clamps[0].n = 9; }},
    {"a clamp moved", [](Plan& p) { p.placed->clamps[0].at.x += 1; }},
    {"a clamp turned", [](Plan& p) { p.placed->clamps[0].axis = geometry::kAxis[0]; }},
    {"a clamp drawn harder", [](Plan& p) { p.placed->clamps[1].force_N *= 2; }},
    {"a pad that bears on more", [](Plan& p) { p.placed->clamps[1].pad.along_mm *= 2; }},
    {"pressure out of nothing",
     [](Plan& p) {
       p.placed->pressure[0].mean_MPa *= 50;
       p.placed->pressure[0].max_MPa *= 50;
     }},
    {"a line told held that isn't", [](Plan& p) { p.placed->pressure[0].level = Level::hold; }},
    {"all told held", [](Plan& p) { p.placed->holds = true; }},
    {"a joint left out",
     [](Plan& p) {
       const JointId joint = p.placed->pressure[0].joint;
       std::erase_if(p.placed->pressure, [&](const LinePressure& l) { return l.joint == joint; });
     }},
    {"nothing found, and yet not held", [](Plan& p) { p.placed->findings.clear(); }},
    {"the trial left out", [](Plan& p) { p.placed.reset(); }}};

}  // namespace

TEST_SUITE("plans/damage") {
  TEST_CASE("the verifier sees every damage done to the trial of one's own clamps") {
    const FixturePlan& f = fixture_plan("placed_on_chest", "enough.toml");
    REQUIRE(f.plan.placed);
    const std::vector<std::string> sound = verify_plan(f.job, f.shop, f.plan);
    CAPTURE(sound.empty() ? std::string() : sound.front());
    REQUIRE(sound.empty());
    for (const Damage& damage : kPlacedDamages) {
      CAPTURE(damage.what);
      Plan plan = f.plan;
      damage.done(plan);
      CHECK_FALSE(verify_plan(f.job, f.shop, plan).empty());
    }
  }
  TEST_CASE("the verifier sees every damage done to a sound plan") {
    const FixturePlan& f = fixture_plan("hive_tool_chest", "enough.toml");
    REQUIRE(verify_plan(f.job, f.shop, f.plan).empty());
    for (const Damage& damage : kDamages) {
      CAPTURE(damage.what);
      Plan plan = f.plan;
      damage.done(plan);
      CHECK_FALSE(verify_plan(f.job, f.shop, plan).empty());
    }
  }
  // The chest's clamps along it find no way in past those that press its top and bottom on.
  TEST_CASE(
      "the verifier sees clamps that find no way to their places, and those laid there before") {
    const FixturePlan& f = fixture_plan("hive_tool_chest", "enough.toml");
    Plan plan = f.plan;
    Stage& stage = plan.stages[0];
    std::vector<Step*> rounds;
    for (Step& step : stage.steps) {
      if (step.kind == StepKind::snug) {
        rounds.push_back(&step);
      }
    }
    REQUIRE(rounds.size() == 3);
    std::swap(rounds[1]->clamps, rounds[2]->clamps);
    const auto no_way = [&] {
      const std::vector<std::string> seen = verify_plan(f.job, f.shop, plan);
      return std::count_if(seen.begin(), seen.end(), [](const std::string& what) {
        return what.find("can't be brought to its place past clamp") != std::string::npos;
      });
    };
    CHECK(no_way() == 2);
    for (PlannedClamp& clamp : stage.clamps) {
      const std::vector<int>& late = rounds[2]->clamps;
      if (std::find(late.begin(), late.end(), clamp.n) != late.end()) {
        clamp.laid_before = rounds[1]->clamps.front();
      }
    }
    CHECK(no_way() == 0);
  }
}
