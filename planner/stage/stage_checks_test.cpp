#include "planner/stage/stage_checks.h"

#include <doctest/doctest.h>

namespace planner::stage {
namespace {

using Checks = std::vector<plan::Check>;

work::Joint joint(work::PartId a, work::PartId b, work::JointKind kind) {
  work::Joint j;
  j.parts = {a, b};
  j.kind = kind;
  j.faces.emplace_back();
  return j;
}

StageWork all_of(std::size_t parts, std::size_t joints) {
  StageWork work;
  for (work::PartId p = 0; p < parts; ++p) {
    work.units.push_back({p});
  }
  for (work::JointId j = 0; j < joints; ++j) {
    work.joints.push_back(j);
  }
  return work;
}

Checks kinds_of(const std::vector<StageCheck>& checks) {
  Checks kinds;
  for (const StageCheck& check : checks) {
    kinds.push_back(check.what);
  }
  return kinds;
}

TEST_SUITE("stage/checks") {
  TEST_CASE("a panel is looked at for flush faces alone, a few seconds a joint") {
    const std::vector<work::Joint> joints = {joint(0, 1, work::JointKind::edge),
                                             joint(1, 2, work::JointKind::edge)};
    const std::vector<geometry::Box> boxes = {
        {{0, 0, 0}, {900, 100, 20}}, {{0, 100, 0}, {900, 200, 20}}, {{0, 200, 0}, {900, 300, 20}}};
    const auto checks = stage_checks(all_of(3, 2), joints, boxes, false, work::Pace{});
    REQUIRE(kinds_of(checks) == Checks{plan::Check::flush});
    CHECK(checks[0].seconds == 10);
  }

  TEST_CASE("a frame that lies flat: flush, square, in one plane") {
    const std::vector<work::Joint> joints = {joint(0, 2, work::JointKind::mortise_and_tenon),
                                             joint(1, 2, work::JointKind::mortise_and_tenon),
                                             joint(0, 3, work::JointKind::mortise_and_tenon),
                                             joint(1, 3, work::JointKind::mortise_and_tenon)};
    const std::vector<geometry::Box> boxes = {{{0, 0, 0}, {50, 20, 700}},
                                              {{350, 0, 0}, {400, 20, 700}},
                                              {{50, 0, 0}, {350, 20, 50}},
                                              {{50, 0, 650}, {350, 20, 700}}};
    const auto checks = stage_checks(all_of(4, 4), joints, boxes, true, work::Pace{});
    CHECK(kinds_of(checks) ==
          Checks{plan::Check::flush, plan::Check::wind});
    CHECK(checks[1].seconds == 45);  // 700 mm: not under 20 in
  }

  TEST_CASE("boards that meet in a U are held against a try square") {
    const std::vector<work::Joint> joints = {joint(0, 1, work::JointKind::butt),
                                             joint(1, 2, work::JointKind::butt)};
    const std::vector<geometry::Box> boxes = {
        {{0, 0, 0}, {20, 300, 300}}, {{20, 0, 0}, {380, 300, 20}}, {{380, 0, 0}, {400, 300, 300}}};
    const auto checks = stage_checks(all_of(3, 2), joints, boxes, false, work::Pace{});
    REQUIRE(kinds_of(checks) == Checks{plan::Check::square});
    CHECK(checks[0].seconds == 20);  // under 20 in
  }

  TEST_CASE("a deep box is no flat thing to wind") {
    const std::vector<work::Joint> joints = {joint(0, 1, work::JointKind::fingers)};
    const std::vector<geometry::Box> boxes = {{{0, 0, 0}, {20, 200, 250}},
                                              {{0, 200, 0}, {400, 220, 250}}};
    CHECK(kinds_of(stage_checks(all_of(2, 1), joints, boxes, true, work::Pace{})) ==
          Checks{});
  }
}

}  // namespace
}  // namespace planner::stage
