#include "planner/clamps/layout/spare_clamps.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::clamps::layout {

namespace {

StageAxes holding(const ClampProblem& problem) {
  axis::AxisCache cache;
  return plan_clamps(problem, plan::Level::hold, {}, cache);
}

}  // namespace

TEST_SUITE("planner/spare_clamps") {
  TEST_CASE("with clamps left over, the next ones on the panel go where it is pressed least") {
    const TestWork panel = work_of_text(
        "title = 'top'\nunits = 'mm'\n[panel]\nlength = 1400\nthickness = 40\n"
        "boards = [90, 85, 90, 95, 90, 85]\nspecies = 'beech'\n[glue]\nuse = 'pva_type1'\n");
    const work::Shop rack = shop_with({some("f_heavy", 10, 609.6), some("parallel", 8, 609.6),
                                       some("pipe_3_4", 6, 914.4), some("sash", 12, 914.4)});
    const ClampProblem problem = panel.problem(rack);
    const ClampLayout layout = lay_out_clamps(problem, plan::Level::hold);
    REQUIRE(layout.missing == 0);
    REQUIRE(!layout.spare.empty());
    for (const plan::SpareNote& told : layout.spare) {
      const auto* note = std::get_if<plan::SpareClampsNote>(&told);
      REQUIRE(note != nullptr);
      CHECK_FALSE(note->places.empty());
      for (const auto& place : note->places) {
        CHECK(place.from_corner.x >= 0);
        CHECK(place.from_corner.y >= 0);
        CHECK(place.from_corner.z >= 0);
      }
      CHECK(note->more_s > 0);
    }
    const StageAxes stage = holding(problem);
    for (const SpareClamps& spare : spare_clamps(problem, stage)) {
      CHECK(spare.after_MPa > 1.1 * spare.before_MPa);
      CHECK(spare.at.size() <= 3);
      CHECK(spare.at.size() == spare.rows.size());
      const auto round = std::find_if(stage.rounds.begin(), stage.rounds.end(), [&](const auto& r) {
        return r.plan.round.axis == spare.axis;
      });
      REQUIRE(round != stage.rounds.end());
      double least = 1e300;
      for (const axis::LineResult& line : press(round->plan, round->plan.clamps)) {
        least = std::min(least, line.profile.min_MPa);
      }
      CHECK(spare.before_MPa == doctest::Approx(least));
      for (const geometry::Point& at : spare.at) {  // never where one stands already
        for (const axis::ChosenClamp& c : round->plan.clamps) {
          CHECK(length(at - round->plan.sites[c.site].at) > 20);
        }
      }
    }
  }
  TEST_CASE("with none left over, or a rack without limits, there is nothing to tell") {
    const TestWork panel = bench_panel();
    const work::Shop rack = shop_with({some("sash", 12, 900)});
    const int used = holding(panel.problem(rack)).clamps;
    const work::Shop bare = shop_with({some("sash", used, 900)});
    CHECK(spare_clamps(panel.problem(bare), holding(panel.problem(bare))).empty());
    const work::Shop any;
    CHECK(spare_clamps(panel.problem(any), holding(panel.problem(any))).empty());
  }
}

}  // namespace planner::clamps::layout
