#include "planner/clamps/layout/clamp_layout.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::clamps::layout {
namespace {

constexpr double kLbf = 4.4482216, kIn = 25.4;

const PressingAxis& round_along(const ClampLayout& layout, std::size_t axis) {
  const auto it = std::find_if(layout.rounds.begin(), layout.rounds.end(),
                               [axis](const auto& r) { return r.axis == geometry::kAxis[axis]; });
  REQUIRE(it != layout.rounds.end());
  return *it;
}

}  // namespace

TEST_SUITE("planner/clamp_layout") {
  TEST_CASE("the chest is held across and down and seated lengthwise") {
    const TestWork chest = hive_tool_chest();
    const work::Shop shop = shop_with({some("f_heavy", 24, 450)});
    const ClampLayout layout = lay_out_clamps(chest.problem(shop), plan::Level::hold);
    REQUIRE(layout.rounds.size() == 3);
    const PressingAxis &across = round_along(layout, 1), &down = round_along(layout, 2),
                       &lengthwise = round_along(layout, 0);
    CHECK(across.clamps.size() >= 4);
    CHECK(down.clamps.size() >= 4);
    CHECK(!across.seat);
    CHECK(!down.seat);
    CHECK(lengthwise.seat);
    CHECK(lengthwise.clamps.size() == 2);
    CHECK(layout.missing == 0);
    CHECK(layout.ways_out.empty());
    for (const PressingAxis& round : layout.rounds) {
      CHECK(round.level != plan::Level::short_of_hold);
      for (const plan::LinePressure& line : round.lines) {
        CHECK(line.level != plan::Level::short_of_hold);
      }
    }
  }
  TEST_CASE("force down on the chest is that of one rim, not of all faces") {
    // 32.25 in2 a rim: 806 lbf at 25 psi, 4,031 lbf at 125 psi (docs/clamping.md: "Load paths").
    const TestWork chest = hive_tool_chest();
    const ClampLayout layout = lay_out_clamps(chest.problem(work::Shop{}), plan::Level::hold);
    const PressingAxis& down = round_along(layout, 2);
    CHECK(down.hold_N == doctest::Approx(806.25 * kLbf).epsilon(0.003));
    CHECK(down.full_N == doctest::Approx(4031.25 * kLbf).epsilon(0.003));
    // 11.06 in2 of shoulders at each end: 277 lbf at 25 psi.
    CHECK(round_along(layout, 0).hold_N == doctest::Approx(276.6 * kLbf).epsilon(0.003));
  }
  TEST_CASE("what is snug gives a quarter of a hand's force, half of the planned, or what the shop says") {
    const TestWork chest = hive_tool_chest();
    work::Shop shop = shop_with({some("f_heavy", 24, 450)});
    const auto snug_lines = [&] {
      const ClampLayout layout = lay_out_clamps(chest.problem(shop), plan::Level::hold);
      int lines = 0;
      for (const plan::PlannedClamp& clamp : round_along(layout, 2).clamps) {
        const double usual = std::min(shop.clamps[0].force_N / 4, clamp.force_N / 2);
        CHECK(clamp.snug_N ==
              std::min(shop.clamps[0].snug_force_N.value_or(usual), clamp.force_N));
      }
      for (const plan::LinePressure& line : round_along(layout, 2).lines) {
        lines += line.snug_holds ? 1 : 0;
      }
      return lines;
    };
    // Planned to hold with weak hands, half the force doesn't.
    CHECK(snug_lines() == 0);
    // As hard as they are planned, they hold as well.
    shop.clamps[0].snug_force_N = shop.clamps[0].force_N;
    CHECK(snug_lines() == static_cast<int>(round_along(lay_out_clamps(chest.problem(shop), plan::Level::hold), 2).lines.size()));
  }
  TEST_CASE("clamps are pre-set to span, what lies under both jaws and half an inch") {
    // 16, 11 and 10 in where that is 3/4 in: worked by hand. Cauls may be thicker.
    const TestWork chest = hive_tool_chest();
    const ClampLayout layout = lay_out_clamps(chest.problem(work::Shop{}), plan::Level::hold);
    const double opening_in[] = {16, 11, 10};
    for (std::size_t axis = 0; axis < 3; ++axis) {
      for (const plan::PlannedClamp& clamp : round_along(layout, axis).clamps) {
        const double under_mm = clamp.caul ? clamp.caul->thick_mm : clamp.pad.thick_mm;
        const double beyond_mm = 2 * (under_mm - 0.75 * kIn);
        CHECK(clamp.opening_mm == doctest::Approx(opening_in[axis] * kIn + beyond_mm));
      }
    }
  }
  TEST_CASE("where the rack has them, clamps bring an edge to full pressure, a rim if it stays under") {
    const work::Shop shop = shop_with({some("f_heavy", 20, 450), some("sash", 16, 900)});
    const TestWork panel = bench_panel();
    const ClampLayout edges = lay_out_clamps(panel.problem(shop), plan::Level::full);
    CHECK(edges.missing == 0);
    CHECK(edges.rounds.front().level == plan::Level::full);
    // A chest's rim, pressed so much where it is weakest, may be over the highest mean elsewhere.
    const TestWork chest = hive_tool_chest();
    const ClampLayout hold = lay_out_clamps(chest.problem(shop), plan::Level::hold);
    const ClampLayout full = lay_out_clamps(chest.problem(shop), plan::Level::full);
    CHECK(full.missing == 0);
    for (const std::size_t axis : {1U, 2U}) {
      const PressingAxis& round = round_along(full, axis);
      CHECK(round.level <= round_along(hold, axis).level);
      CHECK(round.clamps.size() >= round_along(hold, axis).clamps.size());
      for (const plan::LinePressure& line : round.lines) {
        CHECK((line.most_MPa == 0 || line.mean_MPa <= line.most_MPa * 1.001));
      }
    }
  }
  // Cauls with a camber save the pressed one some, as force flattens them; here there is too little.
  TEST_CASE("a glue that asks for closed lines only takes half as many more at most, drawn less") {
    TestWork chest = hive_tool_chest();
    const ClampLayout pressed = lay_out_clamps(chest.problem(work::Shop{}), plan::Level::hold);
    chest.glue = *glue_named("epoxy_slow", {}, work::Shop{}).glue;
    CHECK(chest.glue.hold_MPa == 0);
    for (const plan::Level goal : {plan::Level::hold, plan::Level::full}) {
      const ClampLayout closed = lay_out_clamps(chest.problem(work::Shop{}), goal);
      std::size_t clamps = 0, of_pressed = 0;
      for (const std::size_t axis : {1U, 2U}) {
        const PressingAxis& round = round_along(closed, axis);
        CHECK(round.level == plan::Level::full);  // weak hands hold it too
        clamps += round.clamps.size();
        of_pressed += round_along(pressed, axis).clamps.size();
        for (const plan::PlannedClamp& clamp : round.clamps) {
          CHECK(clamp.force_N <= 200);
        }
      }
      CHECK(2 * clamps <= 3 * of_pressed);
    }
  }
  TEST_CASE("no clamp dents the wood or is asked for more than a person gives") {
    for (const TestWork& work : {hive_tool_chest(), bench_panel(), shelf_case(3)}) {
      const ClampLayout layout = lay_out_clamps(work.problem(work::Shop{}), plan::Level::full);
      for (const PressingAxis& round : layout.rounds) {
        for (const plan::PlannedClamp& clamp : round.clamps) {
          CHECK(clamp.bearing_MPa <= clamp.bearing_limit_MPa * 1.0001);
          CHECK(clamp.force_N <= some(clamp.kind, 1, 100).force_N);
          CHECK(clamp.force_N >= 100);
        }
      }
    }
  }
  TEST_CASE("clamps on a panel's middle plane stand above and below in turn") {
    const ClampLayout layout =
        lay_out_clamps(bench_panel().problem(work::Shop{}), plan::Level::hold);
    REQUIRE(layout.rounds.size() == 1);
    const std::vector<plan::PlannedClamp>& clamps = layout.rounds[0].clamps;
    REQUIRE(clamps.size() >= 2);
    for (std::size_t i = 0; i < clamps.size(); ++i) {
      CHECK(clamps[i].at.z == doctest::Approx(0.4375 * kIn));
      CHECK(std::abs(clamps[i].bar_side.z) == doctest::Approx(1));
      if (i > 0) {
        CHECK(clamps[i].bar_side.z == -clamps[i - 1].bar_side.z);
      }
    }
  }
  TEST_CASE("no two clamps are in each other's way where the rack has kinds of different reach") {
    const TestWork chest = hive_tool_chest();
    const work::Shop shop =
        shop_with({some("sash", 12, 900), some("f_heavy", 10, 600), some("parallel", 8, 600)});
    for (const plan::Level goal : {plan::Level::hold, plan::Level::full}) {
      const ClampLayout layout = lay_out_clamps(chest.problem(shop), goal);
      CHECK(layout.missing == 0);
      CHECK(layout.bar_clashes == 0);
    }
  }
  TEST_CASE("where bars must meet, the clamps say so and what to do") {
    const TestWork chest = hive_tool_chest();
    const ClampLayout layout =
        lay_out_clamps(chest.problem(shop_with({some("sash", 24, 900)})), plan::Level::hold);
    CHECK(layout.missing == 0);
    CHECK(layout.bar_clashes > 0);
    bool told = false;
    for (const PressingAxis& round : layout.rounds) {
      for (const plan::PlannedClamp& clamp : round.clamps) {
        told |= clamp.meets > 0;
      }
    }
    CHECK(told);
  }
  TEST_CASE("one row of clamps presses all joints of a panel, the boards being in line") {
    const TestWork panel = bench_panel();
    const ClampLayout layout = lay_out_clamps(panel.problem(work::Shop{}), plan::Level::hold);
    for (const plan::PlannedClamp& clamp : layout.rounds.at(0).clamps) {
      CHECK(clamp.joints.size() == 5);
    }
  }
  TEST_CASE("shelves in dadoes come home along the shelves, at the front and the back of each") {
    const TestWork shelves = shelf_case(3);
    const ClampLayout layout = lay_out_clamps(shelves.problem(work::Shop{}), plan::Level::hold);
    REQUIRE(layout.rounds.size() == 1);  // a dado's walls are held by their fit
    CHECK(layout.rounds[0].axis == geometry::kAxis[0]);
    CHECK(layout.rounds[0].clamps.size() == 6);
    std::set<double> heights;
    for (const plan::PlannedClamp& clamp : layout.rounds[0].clamps) {
      CHECK(clamp.joints.size() == 2);
      CHECK(!clamp.caul);
      // 25 psi on half of a floor of 300 x 18 mm: 465 N, rounded up to 50.
      CHECK(clamp.force_N == 500);
      heights.insert(std::round(clamp.at.z));
    }
    CHECK(heights == std::set<double>{69, 309, 549});  // the middles of the shelves
  }
  TEST_CASE("a shelf that the rack has no clamp for isn't home; hands do for none that bars could") {
    const TestWork shelves = shelf_case(3);
    const ClampLayout layout = lay_out_clamps(shelves.problem(shop_with({some("f_heavy", 4, 800)})), plan::Level::hold);
    REQUIRE(layout.rounds.size() == 1);
    REQUIRE(layout.missing == 2);
    std::set<work::JointId> pressed;
    for (const plan::PlannedClamp& clamp : layout.rounds[0].clamps) {
      if (clamp.owned) {
        pressed.insert(clamp.joints.begin(), clamp.joints.end());
      }
    }
    CHECK(pressed.size() == 4);
    for (const plan::LinePressure& line : layout.rounds[0].lines) {
      CHECK(line.level == (pressed.contains(line.joint) ? plan::Level::seat : plan::Level::short_of_hold));
    }
  }
  // Outside, handbook: GTR-190 Table 5-3b: eastern white pine, 440 psi across the grain
  TEST_CASE("edges too narrow for a block get a caul as long as they are, and aren't crushed") {
    const auto panel = [](int thickness_mm) {
      return work_of_text(
          "title = 'thin'\nunits = 'mm'\n[panel]\nlength = 600\nboards = [100, 100, 100]\n"
          "thickness = " +
          std::to_string(thickness_mm) +
          "\nspecies = 'eastern_white_pine'\n[glue]\nuse = 'pva_type2'\n");
    };
    for (const int thickness : {6, 8, 10}) {
      const ClampLayout thin =
          lay_out_clamps(panel(thickness).problem(work::Shop{}), plan::Level::full);
      CHECK(thin.rounds.front().level == plan::Level::full);
      for (const plan::PlannedClamp& clamp : thin.rounds.front().clamps) {
        REQUIRE(clamp.caul);
        CHECK(clamp.caul->along_mm == doctest::Approx(600));
        CHECK(clamp.caul->across_mm == doctest::Approx(15));  // 1/2 in or more, in steps of 5 mm
        // Eastern white pine: 440 psi across the grain (Wood Handbook Table 5-3b), half of it, on
        // no more of the edge than a jaw of 32 mm reaches at 45 degrees.
        CHECK(clamp.bearing_limit_MPa == doctest::Approx(440 * 0.00689476 / 2).epsilon(0.02));
        CHECK(clamp.force_N <=
              clamp.bearing_limit_MPa * thickness * (32 + 2 * clamp.caul->thick_mm));
        CHECK(clamp.edge_caul);
      }
    }
    // Length follows where a block stands: 105 mm under a jaw of 32.
    const ClampLayout stout = lay_out_clamps(panel(15).problem(work::Shop{}), plan::Level::full);
    for (const plan::PlannedClamp& clamp : stout.rounds.front().clamps) {
      CHECK(!clamp.caul);
      CHECK(clamp.pad.along_mm > 32);
    }
  }
  TEST_CASE("a rack that is too small is told what it lacks") {
    const TestWork chest = hive_tool_chest();
    const work::Shop shop = shop_with({some("f_heavy", 8, 450)});
    const ClampLayout layout = lay_out_clamps(chest.problem(shop), plan::Level::hold);
    CHECK(layout.missing > 0);
    int used = 0, short_by = 0;
    for (const plan::InventoryRow& row : layout.inventory) {
      used += row.used;
      short_by += row.short_by;
    }
    CHECK(used == 8);
    CHECK(short_by == layout.missing);
    CHECK(std::any_of(layout.rounds.begin(), layout.rounds.end(),
                      [](const PressingAxis& r) { return r.level == plan::Level::short_of_hold; }));
  }
  TEST_CASE("lighter clamping may help what falls short of holding, on a rack that could do that much") {
    using enum plan::Level;
    const work::Shop shop = shop_with({some("f_heavy", 8, 450)});
    ClampLayout layout;
    layout.rounds.emplace_back();
    layout.rounds.front().clamps.resize(8);
    for (const auto& [level, helps] : {std::pair(full, false), {hold, false}, {short_of_hold, true}}) {
      layout.rounds.front().level = level;
      CHECK(light_may_help(layout, shop) == helps);
    }
    CHECK_FALSE(light_may_help(layout, shop_with({some("f_heavy", 1, 450)})));
    layout.rounds.front().level = hold;
    layout.missing = 1;
    CHECK(light_may_help(layout, shop));
  }
  TEST_CASE("every glued joint's larger face is told of") {
    for (const TestWork& work : {hive_tool_chest(), bench_panel(), shelf_case(2)}) {
      const ClampLayout layout = lay_out_clamps(work.problem(work::Shop{}), plan::Level::hold);
      for (work::JointId j = 0; j < work.joints.size(); ++j) {
        int told = 0;
        for (const PressingAxis& round : layout.rounds) {
          told += static_cast<int>(std::count_if(
              round.lines.begin(), round.lines.end(),
              [j](const plan::LinePressure& l) { return l.joint == j && l.face == 0; }));
        }
        CHECK(told == 1);
      }
    }
  }
}

}  // namespace planner::clamps::layout
