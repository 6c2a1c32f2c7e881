#include "planner/clamps/axis/clamp_press.h"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "planner/clamps/axis/axis_clamps.h"
#include "planner/clamps/axis/axis_cache.h"
#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::clamps::axis {
namespace {

AxisClamps planned(const layout::TestWork& work, std::size_t which, plan::Level level) {
  const layout::ClampProblem problem = work.problem(work::Shop{});
  const pressure::Work all = pressure::work_of(problem.parts, work.solids);
  const auto rounds = round_axes(work.joints, problem.stage_joints, work.job);
  AxisSetting setting;
  AxisCache cache;
  setting.kind.force_N = 4500;
  setting.packings = {{Padding::blocks, 19.05}, {Padding::strips, 19.05}};
  return plan_axis({work.job, work.joints, all, rounds[which], work.glue, setting}, level, cache);
}

// What the lines on one plane carry together.
double carried_N(const AxisClamps& plan, const std::vector<LineResult>& results, double offset_mm) {
  double sum = 0;
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    if (std::abs(plan.lines[l].offset_mm - offset_mm) < 1) {
      sum += results[l].profile.mean_MPa * plan.lines[l].length_mm * plan.lines[l].width_mm;
    }
  }
  return sum;
}

}  // namespace

TEST_SUITE("planner/clamp_press") {
  TEST_CASE("what the clamps give down the chest arrives at the lid, and again at the bottom") {
    const AxisClamps plan = planned(layout::hive_tool_chest(), 1, plan::Level::hold);
    REQUIRE(plan.reached);
    double given = 0;
    for (const ChosenClamp& c : plan.clamps) {
      given += c.force_N;
    }
    const auto results = press(plan, plan.clamps);
    CHECK(carried_N(plan, results, 7.625 * 25.4) == doctest::Approx(given).epsilon(0.001));
    CHECK(carried_N(plan, results, 0.375 * 25.4) == doctest::Approx(given).epsilon(0.001));
  }
  TEST_CASE("boards in series carry the whole force in every joint") {
    const AxisClamps plan = planned(layout::bench_panel(), 0, plan::Level::hold);
    double given = 0;
    for (const ChosenClamp& c : plan.clamps) {
      given += c.force_N;
    }
    for (const LineResult& result : press(plan, plan.clamps)) {
      CHECK(result.profile.force_N == doctest::Approx(given).epsilon(0.001));
    }
  }
  TEST_CASE("a clamp near a lid's corner presses both walls that meet there") {
    const AxisClamps plan = planned(layout::hive_tool_chest(), 1, plan::Level::hold);
    bool both = false;
    for (std::size_t s = 0; s < plan.sites.size(); ++s) {
      int lines = 0;
      for (std::size_t l = 0; l < plan.held_lines; ++l) {
        lines += plan.model->presses(s, l) ? 1 : 0;
      }
      CHECK(lines >= 2);  // lid and bottom at least
      both |= lines == 4;
    }
    CHECK(both);
  }
  // 8 mm boards: blocks as narrow would tip. The reference's lines through several boards (E3, E4)
  // are what such a stack is checked against.
  TEST_CASE("a caul along a narrow edge bears as one board more") {
    const layout::TestWork work = layout::work_of_text(
        "title = 'thin'\nunits = 'mm'\n[panel]\nlength = 600\nboards = [100, 100, 100]\n"
        "thickness = 8\nspecies = 'eastern_white_pine'\n[glue]\nuse = 'pva_type2'\n");
    const AxisClamps plan = planned(work, 0, plan::Level::hold);
    REQUIRE(plan.packing.padding == Padding::strips);
    REQUIRE(plan.lines.size() == 2);
    const pressure::GlueLine& line = plan.lines.front();
    const pressure::EdgeBoard caul{plan.packing.thick_mm, 12.7, line.offcut};
    const pressure::EdgePanel five =
        edge_panel(600, std::vector<pressure::EdgeBoard>{caul, line.over_board, line.under_board,
                                                         line.over_board, caul});
    pressure::StackSystem stack;
    stack.lines = {five.line};
    const pressure::PressureSystem system(stack);
    std::vector<pressure::Push> pushes;
    for (const ChosenClamp& c : plan.clamps) {
      const ClampSite& site = plan.sites[c.site];
      for (const pressure::Push& push :
           edge_clamp(five, 0, site.x_mm, site.pad.along_mm, c.force_N)) {
        pushes.push_back(push);
      }
    }
    const pressure::ContactSolution pressed = system.press(pushes);
    const pressure::LineProfile by_hand =
        profile_of(0, five.bed_of_joint[1], system.samples(), pressed.pressure_MPa, pressed.gap_mm);
    for (const LineResult& result : press(plan, plan.clamps)) {
      CHECK(result.profile.min_MPa == doctest::Approx(by_hand.min_MPa).epsilon(1e-6));
      CHECK(result.profile.mean_MPa == doctest::Approx(by_hand.mean_MPa).epsilon(1e-6));
    }
  }
  TEST_CASE("twice the force, twice the pressure") {
    const AxisClamps plan = planned(layout::hive_tool_chest(), 0, plan::Level::hold);
    std::vector<ChosenClamp> harder = plan.clamps;
    for (ChosenClamp& c : harder) {
      c.force_N *= 2;
    }
    const auto one = press(plan, plan.clamps), two = press(plan, harder);
    for (std::size_t l = 0; l < plan.held_lines; ++l) {
      CHECK(two[l].profile.min_MPa == doctest::Approx(2 * one[l].profile.min_MPa));
    }
  }
  TEST_CASE("the chest's promise survives weak hands") {
    // Every clamp at 0.6 of the planned force still holds.
    const AxisClamps plan = planned(layout::hive_tool_chest(), 1, plan::Level::hold);
    std::vector<ChosenClamp> weak = plan.clamps;
    for (ChosenClamp& c : weak) {
      c.force_N *= 0.6;
    }
    const auto results = press(plan, weak);
    for (std::size_t l = 0; l < plan.held_lines; ++l) {
      CHECK(results[l].profile.min_MPa >= 0.172);
    }
  }
  TEST_CASE("both corners at one end of the chest are one entry of the table") {
    const AxisClamps plan = planned(layout::hive_tool_chest(), 0, plan::Level::hold);
    const LineTable table = plan.model->table(need_to_hold(plan), 5);
    std::vector<std::size_t> lines = table.line;
    lines.erase(std::unique(lines.begin(), lines.end()), lines.end());
    CHECK(lines.size() == 2);  // of four
  }
}

}  // namespace planner::clamps::axis
