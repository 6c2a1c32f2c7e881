#include "planner/stage/clampless_rounds.h"

#include <doctest/doctest.h>

namespace planner::stage {

TEST_SUITE("planner/clampless_rounds") {
  TEST_CASE("where nothing is clamped, what nobody fastens is closed and checked before the pins go in") {
    plan::Stage means;
    means.fastenings.emplace_back();
    means.fastenings.back().joint = 1;
    std::vector<StageDemand> demands;
    std::vector<StageRing> rings;
    add_clampless(means, {{{0}, {1}, {2}, {3}}, {0, 1, 2}}, work::Pace{}, demands, rings);
    REQUIRE(demands.size() == 2);
    CHECK(demands[0].does == plan::StepKind::fasten);
    CHECK(demands[0].holds == std::vector<work::JointId>{1});
    CHECK(demands[0].after == std::vector{1});
    CHECK(demands[1].closed_first == std::vector<work::JointId>{0, 2});
  }
}

}  // namespace planner::stage
