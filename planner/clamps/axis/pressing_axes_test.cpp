#include "planner/clamps/axis/pressing_axes.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"

namespace planner::clamps::axis {

TEST_SUITE("planner/pressing_axes") {
  TEST_CASE("the chest is held across and down; lengthwise it has shoulders only") {
    const layout::TestWork chest = layout::hive_tool_chest();
    const auto rounds =
        round_axes(chest.joints, chest.problem(work::Shop{}).stage_joints, chest.job);
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
    const layout::TestWork chest = layout::hive_tool_chest();
    std::vector<FaceRef> all;
    for (const RoundAxis& r :
         round_axes(chest.joints, chest.problem(work::Shop{}).stage_joints, chest.job)) {
      all.insert(all.end(), r.held.begin(), r.held.end());
      all.insert(all.end(), r.closed.begin(), r.closed.end());
    }
    std::sort(all.begin(), all.end());
    CHECK(std::adjacent_find(all.begin(), all.end()) == all.end());
    std::size_t faces = 0;
    for (const work::Joint& joint : chest.joints) {
      faces += joint.faces.size();
    }
    CHECK(all.size() == faces);
  }
  TEST_CASE("a dado's walls are held by their fit, and its floor comes home") {
    const layout::TestWork shelves = layout::shelf_case(1);
    for (const work::Joint& joint : shelves.joints) {
      REQUIRE(joint.faces.size() == 3);
      CHECK(!fit_pressed(joint, 0));
      CHECK(fit_pressed(joint, 1));
      CHECK(fit_pressed(joint, 2));
      CHECK(!main_face(joint));
    }
    const auto rounds =
        round_axes(shelves.joints, shelves.problem(work::Shop{}).stage_joints, shelves.job);
    REQUIRE(rounds.size() == 1);
    CHECK(rounds[0].home);
    CHECK(!rounds[0].driven);
    CHECK(rounds[0].closed.size() == 2);
  }
  TEST_CASE("sides that lean apart are pressed together along one axis, not just brought home") {
    std::string text = "units = 'mm'\nspecies = 'beech'\n[ring]\nsides = 4\nacross = 300\nheight = 100\nthickness = 15\n"
                       "slope = 8\nbottom = 'butt'\n[glue]\nuse = 'pva_type1'\n";
    const layout::TestWork trough = layout::work_of_text(text);
    for (const RoundAxis& r : round_axes(trough.joints, trough.problem(work::Shop{}).stage_joints, trough.job)) {
      CHECK(r.home == r.held.empty());
    }
  }
  TEST_CASE("a joint that stays dry wants no clamps") {
    layout::TestWork panel = layout::bench_panel();
    panel.joints[2].glued = false;
    const auto rounds =
        round_axes(panel.joints, panel.problem(work::Shop{}).stage_joints, panel.job);
    REQUIRE(rounds.size() == 1);
    CHECK(rounds[0].held.size() == 4);
  }
}

}  // namespace planner::clamps::axis
