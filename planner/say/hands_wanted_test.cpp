#include "planner/say/hands_wanted.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::say;

namespace {

plan::Step join(int n, work::PartId moving, std::vector<work::PartId> all, work::JointId closes,
                bool wants_hand) {
  plan::Step step;
  step.n = n;
  step.kind = plan::StepKind::join;
  step.parts = std::move(all);
  step.joints = {closes};
  step.motion = plan::Motion{{moving}, {0, 0, -1}};
  step.wants_hand = wants_hand;
  return step;
}

plan::Step snug(int n, std::vector<work::JointId> joints) {
  plan::Step step;
  step.n = n;
  step.kind = plan::StepKind::snug;
  step.joints = std::move(joints);
  return step;
}

}  // namespace

TEST_SUITE("planner/hands_wanted") {
  TEST_CASE("two ends that would fall, and a front to bring: three hands") {
    plan::Stage stage;
    stage.steps = {join(1, 1, {0, 1}, 0, true), join(2, 2, {0, 1, 2}, 1, true),
                   join(3, 3, {0, 1, 2, 3}, 2, false), join(4, 4, {0, 1, 2, 3, 4}, 3, false)};
    const auto alone = say::joins_short_of_hands(stage, 1);
    REQUIRE(alone.size() == 1);  // the front leaves the ends standing
    CHECK(alone[0].step == 3);
    CHECK(alone[0].hands == 3);
    CHECK(alone[0].props == 1);
    CHECK(alone[0].loose == std::vector<work::PartId>{1, 2});
    CHECK(say::joins_short_of_hands(stage, 2).empty());
  }

  TEST_CASE("what is snug wants no hand any more") {
    plan::Stage stage;
    stage.steps = {join(1, 1, {0, 1}, 0, true), join(2, 2, {0, 1, 2}, 1, true), snug(3, {0, 1}),
                   join(4, 3, {0, 1, 2, 3}, 2, false)};
    CHECK(say::joins_short_of_hands(stage, 1).empty());
    stage.steps[2].joints = {0};
    CHECK(say::joins_short_of_hands(stage, 1).empty());  // one is snug, one held
    stage.steps[2].joints = {};
    CHECK(say::joins_short_of_hands(stage, 1).size() == 1);
  }
}
