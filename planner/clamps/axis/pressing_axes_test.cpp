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
    // A floor between two sides that lean out by 10 degrees.
    std::string text =
        "units = 'mm'\nspecies = 'beech'\n[glue]\nuse = 'pva_type2'\n[[part]]\nname = 'floor'\nlength = 300\nwidth = 200\n"
        "thickness = 20\nalong = 'y'\nface = 'z'\nat = [0, 0, 0]\n";
    for (const char* side : {"-x", "+x"}) {
      text += std::string("[[part.cut]]\nkind = 'mitre'\nside = '") + side + "'\nlong = '+z'\nangle = 10\n";
    }
    for (const bool left : {true, false}) {
      text += std::string("[[part]]\nname = '") + (left ? "left" : "right") +
              "'\nlength = 300\nwidth = 120\nthickness = 18\nalong = 'y'\nface = 'x'\nat = [" + (left ? "-18" : "200") +
              ", 0, 0]\nturn = { axis = 'y', angle = " + (left ? "-10" : "10") + ", about = [" + (left ? "0" : "200") +
              ", 0, 20] }\n";
    }
    const layout::TestWork trough = layout::work_of_text(text);
    const auto rounds = round_axes(trough.joints, trough.problem(work::Shop{}).stage_joints, trough.job);
    REQUIRE(rounds.size() == 1);
    CHECK(rounds[0].axis == geometry::kAxis[0]);
    CHECK(rounds[0].held.size() == 2);
    CHECK_FALSE(rounds[0].home);
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
