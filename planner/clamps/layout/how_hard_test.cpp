// How many clamps, how hard, and which of them.
#include <algorithm>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_rack.h"
#include "planner/clamps/layout/clamp_work_test.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

namespace planner::clamps::layout {
namespace {

TestWork panel(int length_mm, const std::string& boards) {
  return work_of_text("title = 'panel'\nunits = 'mm'\n[panel]\nlength = " +
                      std::to_string(length_mm) + "\nboards = [" + boards +
                      "]\nthickness = 20\nspecies = 'black_cherry'\n[glue]\nuse = 'pva_type2'\n");
}

plan::Plan planned_with(const TestWork& work, const work::Shop& shop) {
  Planned planned = make_plan(work.job, shop, {});
  REQUIRE(planned.plan);
  for (const std::string& violation : verify::verify_plan(work.job, shop, *planned.plan)) {
    FAIL_CHECK(violation);
  }
  return *planned.plan;
}

TestWork chest() {
  return work_of_text(
      "title = 'chest'\nunits = 'in'\n[box]\noutside = [14, 9, 8]\nstock = '3/4'\n"
      "corners = 'rabbet'\ntop = 'rabbet'\nbottom = 'rabbet'\nspecies = 'black_cherry'\n[glue]\n"
      "use = 'pva_type2'\n");
}

}  // namespace

TEST_SUITE("planner/how_hard") {
  TEST_CASE("gentle is to a third of what hands give, firm to two thirds") {
    CHECK(strength_of(100, 300) == plan::Strength::gentle);
    CHECK(strength_of(101, 300) == plan::Strength::firm);
    CHECK(strength_of(200, 300) == plan::Strength::firm);
    CHECK(strength_of(201, 300) == plan::Strength::hard);
  }
  TEST_CASE("edges get a clamp a foot, and three from 16 in on, however few would press enough") {
    const work::Shop shop = shop_with({some("sash", 12, 900)});
    // 400 mm: two; 500: three. 1800: four stand 3 x 304.8 mm apart and leave more than that at the ends.
    for (const std::pair<int, unsigned>& row :
         {std::pair(400, 2U), std::pair(500, 3U), std::pair(1800, 5U)}) {
      const int length = row.first;
      const unsigned least = row.second;
      CAPTURE(length);
      const ClampLayout layout =
          lay_out_clamps(panel(length, "40, 40").problem(shop), plan::Level::hold);
      std::vector<double> at;
      for (const plan::PlannedClamp& clamp : layout.rounds.front().clamps) {
        at.push_back(clamp.at.x);
        CHECK(clamp.strength != plan::Strength::hard);
      }
      std::sort(at.begin(), at.end());
      CHECK(at.size() >= least);
      for (std::size_t i = 1; i < at.size(); ++i) {
        CHECK(at[i] - at[i - 1] <= 304.81);
      }
    }
  }
  TEST_CASE("a rack with clamps enough draws none of them hard; a short one does, before it lacks any") {
    const TestWork work = panel(1200, "120, 120, 120");
    const auto hardest = [](const ClampLayout& layout) {
      plan::Strength most = plan::Strength::gentle;
      for (const plan::PlannedClamp& clamp : layout.rounds.front().clamps) {
        most = std::max(most, clamp.strength);
      }
      return most;
    };
    const ClampLayout plenty = lay_out_clamps(
        work.problem(shop_with({some("f_heavy", 12, 600)})), plan::Level::hold);
    CHECK(hardest(plenty) != plan::Strength::hard);
    const int fewer = static_cast<int>(plenty.rounds.front().clamps.size()) - 1;
    const ClampLayout few = lay_out_clamps(
        work.problem(shop_with({some("f_heavy", fewer, 600)})), plan::Level::hold);
    CHECK((few.missing > 0 || hardest(few) == plan::Strength::hard));
  }
  TEST_CASE("of kinds that take as many and are drawn alike the weakest is taken, the others kept") {
    const ClampLayout layout = lay_out_clamps(
        panel(120, "60, 60").problem(shop_with({some("sash", 6, 900), some("f_light", 6, 450)})),
        plan::Level::hold);
    for (const plan::PlannedClamp& clamp : layout.rounds.front().clamps) {
      CHECK(clamp.kind == "f_light");
    }
  }
  // Outside, published: Wood magazine, September 2021: 100 to 150 psi for soft woods
  TEST_CASE("no line's mean is above what is published for its wood") {
    const TestWork work = work_of_text(
        "title = 'tray'\nunits = 'mm'\n[box]\noutside = [300, 200, 100]\nstock = 12\n"
        "corners = 'rabbet'\nspecies = 'eastern_white_pine'\n[glue]\nuse = 'pva_yellow'\n");
    const plan::Plan plan = planned_with(work, shop_with({some("f_light", 6, 450)}));
    for (const plan::LinePressure& line : plan.pressure) {
      if (line.level != plan::Level::seat) {
        CHECK(line.mean_MPa <= 150 * 0.00689476 * 1.001);  // soft woods: 100 to 150 psi
      }
    }
  }
  TEST_CASE("a helper makes no plan use more clamps") {
    work::Shop one = shop_with({some("f_heavy", 24, 600)}), two = one;
    two.people = 2;
    const TestWork work = panel(1000, "90, 90, 90");
    CHECK(planned_with(work, one).stages.front().clamps.size() ==
          planned_with(work, two).stages.front().clamps.size());
  }
  TEST_CASE("what the rack can't hold it may hold lightly: GO, and told where and what brings more") {
    // One go is all there is of two boards.
    const TestWork work = panel(900, "150, 150");
    int enough = 12;
    const auto shop = [](int clamps) { return shop_with({some("f_light", clamps, 600)}); };
    while (enough > 3 && planned_with(work, shop(enough)).verdict.pressure <= plan::Level::hold) {
      --enough;
    }
    const plan::Plan plan = planned_with(work, shop(enough));
    REQUIRE(plan.verdict.pressure == plan::Level::light);
    CHECK(plan.verdict.ok);
    CHECK(!plan.verdict.ways_out.empty());
    CHECK(std::ranges::any_of(plan.notes, [](const plan::Note& note) {
      return std::holds_alternative<plan::LightlyHeldNote>(note);
    }));
  }
  TEST_CASE("a bowed board isn't held lightly") {
    const TestWork work = work_of_text(
        "title = 'bowed'\nunits = 'mm'\n"
        "[[part]]\nname = 'a'\nspecies = 'black_cherry'\nlength = 900\nwidth = 100\nthickness = 20\n"
        "along = 'x'\nface = 'z'\nat = [0, 0, 0]\nbow = 1\nhollow = '+y'\n"
        "[[part]]\nname = 'b'\nspecies = 'black_cherry'\nlength = 900\nwidth = 100\nthickness = 20\n"
        "along = 'x'\nface = 'z'\nat = [0, 100, 0]\n[glue]\nuse = 'pva_type2'\n");
    const plan::Plan plan = planned_with(work, shop_with({some("f_light", 3, 450)}));
    CHECK(plan.verdict.pressure == plan::Level::short_of_hold);
  }
  TEST_CASE("a chest is held by eight clamps, four each way, in one go or two") {
    const plan::Plan plan = planned_with(chest(), shop_with({some("f_heavy", 8, 609.6)}));
    CHECK(plan.verdict.ok);
    CHECK(plan.stages.size() <= 2);
    for (const plan::Stage& stage : plan.stages) {
      CHECK(stage.clamps.size() <= 8);
    }
  }
  TEST_CASE("frames of members too slight to bear a snug clamp are refused, not planned") {
    const TestWork work = work_of_text(
        "title = 'slight'\nunits = 'mm'\n[frame]\noutside = [200, 150]\nmember = 1\nthickness = 10\n"
        "corners = 'mitre'\nspecies = 'black_cherry'\n[glue]\nuse = 'pva_type2'\n");
    const plan::Plan plan = planned_with(work, work::Shop{});
    CHECK(!plan.verdict.ok);
  }
}

}  // namespace planner::clamps::layout
