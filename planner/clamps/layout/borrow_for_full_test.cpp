#include "planner/clamps/layout/borrow_for_full.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"
#include "planner/make_plan.h"

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
    CHECK(layout.fuller->hold.what == "hold instead of full, as planned");
    CHECK(layout.fuller->hold.gain.find("0.17 MPa or more") != std::string::npos);
    CHECK(layout.fuller->hold.trouble < layout.fuller->borrow.trouble);
    CHECK(layout.fuller->borrow.what == "borrow 3 parallel-jaw clamps that open 411 mm or more");
    CHECK(layout.fuller->borrow.gain.find("fully with 12 clamps") != std::string::npos);
    // So many press fully; one fewer don't.
    CHECK(with(work, 9 + 3).rounds.front().level == plan::Level::full);
    CHECK(with(work, 9 + 2).rounds.front().level == plan::Level::hold);
  }
  TEST_CASE("the choice is the plan's, where the glue leaves time for more clamps") {
    const TestWork work = panel();
    const work::Shop shop = shop_with({some("parallel", 9, 600)});
    const Planned planned = make_plan(work.job, shop, {});
    REQUIRE(planned.plan);
    const plan::Verdict& verdict = planned.plan->verdict;
    CHECK(verdict.ok);
    CHECK(verdict.pressure == plan::Level::hold);
    REQUIRE(verdict.ways_out.size() == 2);
    CHECK(verdict.ways_out[0].what == "hold instead of full, as planned");
    CHECK(verdict.ways_out[1].what.find("borrow 3") == 0);
  }
  TEST_CASE("a mitred frame that no number of the rack's clamps presses fully is told so") {
    const TestWork frame = work_of_text(
        "title = 'frame'\nunits = 'mm'\n[frame]\noutside = [500, 400]\nmember = 60\n"
        "thickness = 20\ncorners = 'mitre'\nspecies = 'black_cherry'\n[glue]\nuse = 'pva_type2'\n");
    const ClampLayout layout = with(frame, 6);
    CHECK(layout.missing == 0);
    CHECK(!layout.fuller);
    REQUIRE(layout.tried.size() == 1);
    CHECK(layout.tried[0].find("held, not fully pressed") == 0);
  }
}

}  // namespace planner::clamps::layout
