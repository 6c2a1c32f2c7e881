#include "planner/clamps/layout/spare_clamps.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::clamps::layout {

TEST_SUITE("planner/spare_clamps") {
  TEST_CASE("with clamps left over, the next ones on the chest go where its lid is pressed least") {
    const TestWork chest = work_of_text(
        "title = \"chest\"\nunits = \"in\"\n[box]\noutside = [14, 9, 8]\nstock = \"3/4\"\n"
        "corners = \"rabbet\"\ntop = \"rabbet\"\nbottom = \"rabbet\"\n"
        "species = \"black_cherry\"\n[glue]\nuse = \"pva_type2\"\n");
    const work::Shop rack = shop_with({some("f_heavy", 10, 609.6), some("parallel", 8, 609.6),
                                       some("pipe_3_4", 6, 914.4), some("sash", 12, 914.4)});
    const ClampProblem problem = chest.problem(rack);
    const ClampLayout layout = lay_out_clamps(problem, plan::Level::hold);
    REQUIRE(layout.missing == 0);
    REQUIRE(!layout.spare.empty());
    for (const std::string& text : layout.spare) {
      CAPTURE(text);
      CHECK(text.find("of the clamps left over, the next") == 0);
      CHECK(text.find("from the left and") != std::string::npos);
      CHECK(text.find(" s more") != std::string::npos);
    }
    const StageAxes stage = plan_clamps(problem, plan::Level::hold, {});
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
    const int used = plan_clamps(panel.problem(rack), plan::Level::hold, {}).clamps;
    const work::Shop bare = shop_with({some("sash", used, 900)});
    CHECK(spare_clamps(panel.problem(bare), plan_clamps(panel.problem(bare), plan::Level::hold, {}))
              .empty());
    const work::Shop any;
    CHECK(spare_clamps(panel.problem(any), plan_clamps(panel.problem(any), plan::Level::hold, {}))
              .empty());
  }
}

}  // namespace planner::clamps::layout
