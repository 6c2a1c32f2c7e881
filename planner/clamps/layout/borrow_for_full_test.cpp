#include "planner/clamps/layout/borrow_for_full.h"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/work/step_seconds.h"

namespace planner::clamps::layout {
namespace {

// Four boards of 90 x 22 x 900 mm in a glue that leaves time.
TestWork panel() {
  return work_of_text(
      "title = 'panel'\nunits = 'mm'\n[panel]\nlength = 900\nboards = [90, 90, 90, 90]\n"
      "thickness = 22\nspecies = 'black_cherry'\n[glue]\nuse = 'uf_powder'\n");
}

ClampLayout with(const TestWork& work, int clamps) {
  return lay_out_clamps(work.problem(shop_with({some("parallel", clamps, 600)})),
                        plan::Level::full);
}

}  // namespace

TEST_SUITE("planner/borrow_for_full") {
  TEST_CASE("held but not full: told to go as it is, or how many more clamps press fully") {
    const TestWork work = panel();
    const ClampLayout layout = with(work, 9);
    CHECK(layout.missing == 0);
    CHECK(layout.rounds.front().level == plan::Level::hold);
    REQUIRE(layout.fuller);
    const auto* hold = std::get_if<plan::HoldWay>(&layout.fuller->hold.change);
    REQUIRE(hold != nullptr);
    CHECK(hold->hold_MPa == work.glue.hold_MPa);
    CHECK(layout.fuller->hold.trouble < layout.fuller->borrow.trouble);
    const auto* borrow = std::get_if<plan::BorrowWay>(&layout.fuller->borrow.change);
    REQUIRE(borrow != nullptr);
    CHECK(borrow->full);
    CHECK(borrow->clamps == 12);
    REQUIRE(borrow->lacking.size() == 1);
    CHECK(borrow->lacking[0].kind == "parallel");
    CHECK(borrow->lacking[0].count == 3);
    CHECK(std::ceil(borrow->lacking[0].opening_mm - 1e-3) == 449);  // 360, edge cauls 38 thick, half an inch
    // Each that is more on the work is set and tightened.
    const work::Pace pace;
    const auto more = static_cast<double>(12 - layout.rounds.front().clamps.size());
    CHECK(layout.fuller->more_s == doctest::Approx(more * (work::snug_seconds("parallel", pace) + pace.tighten_s)));
    // So many press fully; one fewer don't.
    CHECK(with(work, 9 + 3).rounds.front().level == plan::Level::full);
    CHECK(with(work, 9 + 2).rounds.front().level == plan::Level::hold);
  }
  TEST_CASE("the choice is the plan's, where the glue leaves time for more clamps") {
    const TestWork work = panel();
    const work::Shop shop = shop_with({some("parallel", 9, 600)});
    stage::PlanOptions fully;
    fully.goal = plan::Level::full;
    const Planned planned = make_plan(work.job, shop, fully);
    REQUIRE(planned.plan);
    const plan::Verdict& verdict = planned.plan->verdict;
    CHECK(verdict.ok);
    CHECK(verdict.pressure == plan::Level::hold);
    REQUIRE(verdict.ways_out.size() == 2);
    CHECK(std::holds_alternative<plan::HoldWay>(verdict.ways_out[0].change));
    const auto* borrow = std::get_if<plan::BorrowWay>(&verdict.ways_out[1].change);
    REQUIRE(borrow != nullptr);
    CHECK(borrow->lacking[0].count == 3);
  }
  TEST_CASE("where full pressure is asked for and not had, the plan says so, on any rack") {
    const TestWork frame = work_of_text(
        "title = 'frame'\nunits = 'mm'\n[frame]\noutside = [500, 400]\nmember = 60\n"
        "thickness = 20\ncorners = 'mitre'\nspecies = 'black_cherry'\n[glue]\nuse = 'pva_type2'\n");
    stage::PlanOptions fully;
    fully.goal = plan::Level::full;
    for (const work::Shop& shop : {files::unlimited_shop(), shop_with({some("parallel", 6, 600)})}) {
      const Planned planned = make_plan(frame.job, shop, fully);
      REQUIRE(planned.plan);
      CHECK(planned.plan->verdict.pressure == plan::Level::hold);
      CHECK(std::ranges::any_of(planned.plan->spare_notes, [](const plan::SpareNote& note) {
        return std::holds_alternative<plan::FullLeftOutNote>(note) || std::holds_alternative<plan::NotFullNote>(note);
      }));
    }
  }
  TEST_CASE("a mitred frame that no number of the rack's clamps presses fully is told so") {
    const TestWork frame = work_of_text(
        "title = 'frame'\nunits = 'mm'\n[frame]\noutside = [500, 400]\nmember = 60\n"
        "thickness = 20\ncorners = 'mitre'\nspecies = 'black_cherry'\n[glue]\nuse = 'pva_type2'\n");
    const ClampLayout layout = with(frame, 6);
    CHECK(layout.missing == 0);
    CHECK(!layout.fuller);
    REQUIRE(layout.tried.size() == 1);
    CHECK(std::holds_alternative<plan::NotFullNote>(layout.tried[0]));
  }
}

}  // namespace planner::clamps::layout
