#include "planner/stage/stage_demands.h"

#include <doctest/doctest.h>

namespace planner::stage {

TEST_SUITE("planner/stage_demands") {
  TEST_CASE("a joint counts as pressed by snug clamps where every face that they press is held by then") {
    clamps::layout::ClampLayout layout;
    clamps::layout::PressingAxis& round = layout.rounds.emplace_back();
    round.clamps.resize(2);
    round.holds = round.presses = {0, 1, 2};
    for (const auto& [joint, holds] : {std::pair(0, true), {1, false}, {2, true}, {2, false}}) {
      plan::LinePressure& line = round.lines.emplace_back();
      line.joint = static_cast<work::JointId>(joint);
      line.level = plan::Level::hold;
      line.snug_holds = holds;
    }
    const std::vector<work::Joint> joints(3);
    const std::vector<ClampGroup> groups = {{0}};
    const auto demands = demands_of(layout, groups, joints, work::Pace{}, {});
    REQUIRE(demands.size() == 1);
    CHECK(demands[0].snug_presses == std::vector<work::JointId>{0});
  }
}

}  // namespace planner::stage
