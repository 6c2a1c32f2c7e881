#include "planner/work/step_seconds.h"

#include <doctest/doctest.h>

using namespace planner;
using namespace planner::work;

namespace {
work::Joint joint_of(double length_mm, double width_mm) {
  work::Joint joint;
  work::GlueFace face;
  face.contact.length_mm = length_mm;
  face.contact.width_mm = width_mm;
  face.contact.area_mm2 = length_mm * width_mm;
  joint.faces.push_back(face);
  return joint;
}
}  // namespace

TEST_SUITE("planner/pace") {
  // The spread times of the solved box: tests/reference/schedules.json, "rabbeted_box".
  TEST_CASE("a chest's corner takes 14 s to spread, its lid's long and short lines 22 and 15 s") {
    CHECK(spread_seconds(joint_of(7.25 * 25.4, 19), work::Pace{}) == 14);
    CHECK(spread_seconds(joint_of(14 * 25.4, 19), work::Pace{}) == 22);
    CHECK(spread_seconds(joint_of(8.25 * 25.4, 19), work::Pace{}) == 15);
  }
  TEST_CASE("a square foot of face takes a minute by brush, and the joint's own seconds") {
    CHECK(spread_seconds(joint_of(304.8, 304.8), work::Pace{}) == 64);
  }
  TEST_CASE("gluing only the middle third takes a third of the brush strokes") {
    work::Joint joint = joint_of(609.6, 19);
    CHECK(spread_seconds(joint, work::Pace{}) == 34);
    joint.middle_mm = 203.2;
    CHECK(spread_seconds(joint, work::Pace{}) == 14);
  }
  TEST_CASE("a one-handed clamp is snug sooner than a pipe clamp, and a learned pace wins") {
    CHECK(snug_seconds("trigger", work::Pace{}) == 20);
    CHECK(snug_seconds("pipe_3_4", work::Pace{}) == 40);
    CHECK(snug_seconds("f_heavy", work::Pace{}) == 30);
    work::Pace learned;
    learned.snug_s = 26;
    CHECK(snug_seconds("pipe_3_4", learned) == 26);
  }
}
