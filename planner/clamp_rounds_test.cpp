#include "planner/clamp_rounds.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/clamp_work_test.h"

namespace planner {

TEST_SUITE("planner/clamp_rounds") {
  TEST_CASE("the chest is held across and down; lengthwise it has shoulders only") {
    const TestWork chest = hive_tool_chest();
    const auto rounds = round_axes(chest.joints, chest.problem(Shop{}).stage_joints, chest.job);
    REQUIRE(rounds.size() == 3);
    CHECK(rounds[0].axis == geometry::kAxis[1]);
    CHECK(rounds[0].held.size() == 4);  // the corners
    CHECK(rounds[1].axis == geometry::kAxis[2]);
    CHECK(rounds[1].held.size() == 8);  // lid and bottom on four walls
    CHECK(rounds[2].axis == geometry::kAxis[0]);
    CHECK(rounds[2].seat());
    CHECK(rounds[2].closed.size() == 8);
  }
  TEST_CASE("every glued face of the chest is in one round, once") {
    const TestWork chest = hive_tool_chest();
    std::vector<FaceRef> all;
    for (const RoundAxis& r :
         round_axes(chest.joints, chest.problem(Shop{}).stage_joints, chest.job)) {
      all.insert(all.end(), r.held.begin(), r.held.end());
      all.insert(all.end(), r.closed.begin(), r.closed.end());
    }
    std::sort(all.begin(), all.end());
    CHECK(std::adjacent_find(all.begin(), all.end()) == all.end());
    std::size_t faces = 0;
    for (const Joint& joint : chest.joints) {
      faces += joint.faces.size();
    }
    CHECK(all.size() == faces);
  }
  TEST_CASE("a dado's walls are held by their fit, its floor is not") {
    const TestWork shelves = shelf_case(1);
    for (const Joint& joint : shelves.joints) {
      REQUIRE(joint.faces.size() == 3);
      CHECK(!held_by_fit(joint, 0));
      CHECK(held_by_fit(joint, 1));
      CHECK(held_by_fit(joint, 2));
      CHECK(main_face(joint) == 0);
    }
  }
  TEST_CASE("a joint that stays dry wants no clamps") {
    TestWork panel = bench_panel();
    panel.joints[2].glued = false;
    const auto rounds = round_axes(panel.joints, panel.problem(Shop{}).stage_joints, panel.job);
    REQUIRE(rounds.size() == 1);
    CHECK(rounds[0].held.size() == 4);
  }
}

}  // namespace planner
