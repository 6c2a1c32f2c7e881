#include "planner/work/step_seconds.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::work;

namespace {
work::Joint joint_of(JointKind kind, double length_mm, double width_mm) {
  work::Joint joint;
  joint.kind = kind;
  joint.parts = {0, 1};
  work::GlueFace face;
  face.contact.length_mm = length_mm;
  face.contact.width_mm = width_mm;
  face.contact.area_mm2 = length_mm * width_mm;
  face.contact.normal = {0, 0, 1};
  joint.faces.push_back(face);
  return joint;
}

geometry::Box board(double length_mm) {
  return {{0, 0, 0}, {length_mm, 100, 20}};
}

// Of two boards as long as these, joined by a joint of the kind.
int join_of(JointKind kind, double one_mm, double other_mm) {
  const std::array<geometry::Box, 2> bounds = {board(one_mm), board(other_mm)};
  return join_seconds(joint_of(kind, 100, 19), bounds, Pace{});
}
}  // namespace

TEST_SUITE("planner/step_seconds") {
  // The spread times of the solved box: tests/reference/schedules.json, "rabbeted_box".
  TEST_CASE("a chest's corner takes 14 s to spread, its lid's long and short lines 22 and 15 s") {
    CHECK(spread_seconds(joint_of(JointKind::rabbet, 7.25 * 25.4, 19), Pace{}) == 14);
    CHECK(spread_seconds(joint_of(JointKind::rabbet, 14 * 25.4, 19), Pace{}) == 22);
    CHECK(spread_seconds(joint_of(JointKind::rabbet, 8.25 * 25.4, 19), Pace{}) == 15);
  }
  TEST_CASE("an edge takes five seconds a foot by bead and roller") {
    CHECK(spread_seconds(joint_of(JointKind::edge, 1219.2, 19), Pace{}) == 20);
  }
  TEST_CASE("a face takes ten seconds, more where it is long or wide") {
    CHECK(spread_seconds(joint_of(JointKind::mitre, 50, 19), Pace{}) == 10);
    CHECK(spread_seconds(joint_of(JointKind::butt, 914.4, 19), Pace{}) == 15);
    CHECK(spread_seconds(joint_of(JointKind::lap, 304.8, 304.8), Pace{}) == 60);
  }
  TEST_CASE("a lamination is spread by a notched spreader, a third of the time of a brush") {
    const Joint joint = joint_of(JointKind::lamination, 304.8, 304.8);
    CHECK(spread_seconds(joint, Pace{}) == 20);
    Pace brush;
    brush.wide_s_per_mm2 = 60 / (304.8 * 304.8);
    CHECK(spread_seconds(joint, brush) == 60);
  }
  TEST_CASE("a finger corner takes its pieces' time on top: four on one board, three on the other") {
    Joint corner = joint_of(JointKind::fingers, 12, 19);
    corner.faces.resize(6, corner.faces[0]);
    corner.faces.push_back(corner.faces[0]);
    corner.faces.back().contact.normal = {1, 0, 0};
    CHECK(spread_seconds(corner, Pace{}) == 15 + 4 * 2);
  }
  TEST_CASE("a tenon takes its time whatever its size, a dowel its own") {
    CHECK(spread_seconds(joint_of(JointKind::mortise_and_tenon, 40, 60), Pace{}) == 20);
    CHECK(spread_seconds(joint_of(JointKind::dowel, 40, 30), Pace{}) == 5);
  }
  TEST_CASE("gluing only the middle third takes a third of the brush strokes") {
    Joint joint = joint_of(JointKind::groove, 609.6, 19);
    CHECK(spread_seconds(joint, Pace{}) == 34);
    joint.middle_mm = 203.2;
    CHECK(spread_seconds(joint, Pace{}) == 14);
  }
  TEST_CASE("the shorter part moves: 8 s under 20 in, 20 to 4 ft, 40 beyond, 5 a strip") {
    CHECK(join_of(JointKind::dado, 507, 2000) == 8);
    CHECK(join_of(JointKind::dado, 508, 2000) == 20);
    CHECK(join_of(JointKind::dado, 2000, 1219) == 20);
    CHECK(join_of(JointKind::dado, 2000, 1220) == 40);
    CHECK(join_of(JointKind::edge, 2000, 2000) == 5);
  }
  TEST_CASE("a board is as long wherever it lies") {
    for (const geometry::Direction& away : geometry::kAxis) {
      for (const geometry::Direction& along : geometry::kAxis) {
        const geometry::Point low = geometry::Point{} + 900.0 * away, high = low + 507.0 * along;
        const std::array<geometry::Box, 2> bounds = {geometry::Box{low, high}, board(2000)};
        CHECK(join_seconds(joint_of(JointKind::dado, 100, 19), bounds, Pace{}) == 8);
      }
    }
  }
  TEST_CASE("tongues have to be started one by one, flat faces not") {
    CHECK(next_seconds(joint_of(JointKind::dado, 100, 19), Pace{}) == 10);
    CHECK(next_seconds(joint_of(JointKind::rabbet, 100, 19), Pace{}) == 0);
  }
  TEST_CASE("a one-handed clamp is snug sooner than a pipe clamp, and a learned pace wins") {
    CHECK(snug_seconds("trigger", Pace{}) == 8);
    CHECK(snug_seconds("pipe_3_4", Pace{}) == 25);
    CHECK(snug_seconds("f_heavy", Pace{}) == 15);
    Pace learned;
    learned.any_snug_s = 30;
    learned.snug_s["pipe_3_4"] = 26;
    CHECK(snug_seconds("pipe_3_4", learned) == 26);
    CHECK(snug_seconds("f_heavy", learned) == 30);
  }
}
