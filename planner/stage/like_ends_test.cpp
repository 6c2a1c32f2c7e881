#include "planner/stage/like_ends.h"

#include "planner/stage/stage_problem.h"

#include <doctest/doctest.h>

namespace planner::stage {
namespace {

// A table's base: legs 0 to 3 at the corners, rails 4 (left), 5 (right), 6 (front), 7 (back), each
// let 20 mm into its legs.
struct Base {
  std::vector<geometry::Box> bounds;
  std::vector<work::Joint> joints;

  Base(double length, double width) {
    const double leg = 60, tall = 700;
    for (const double x : {0.0, length - leg}) {
      for (const double y : {0.0, width - leg}) {
        bounds.push_back({{x, y, 0}, {x + leg, y + leg, tall}});
      }
    }
    for (const double x : {20.0, length - leg + 20}) {
      bounds.push_back({{x, leg - 20, 600}, {x + 20, width - leg + 20, tall}});
    }
    for (const double y : {20.0, width - leg + 20}) {
      bounds.push_back({{leg - 20, y, 600}, {length - leg + 20, y + 20, tall}});
    }
    for (const auto& parts : {std::array<work::PartId, 2>{0, 4}, {1, 4}, {2, 5}, {3, 5}, {0, 6}, {2, 6}, {1, 7}, {3, 7}}) {
      joints.emplace_back();
      joints.back().parts = parts;
    }
  }
};

}  // namespace

TEST_SUITE("stage/like ends") {
  TEST_CASE("a table's ends are those with the shorter rails") {
    const Base lengthwise(1200, 650), across(500, 900);
    const auto ends = like_ends(lengthwise.joints, lengthwise.bounds);
    REQUIRE(ends);
    CHECK((*ends)[0] == std::vector<work::PartId>{0, 1, 4});
    CHECK((*ends)[1] == std::vector<work::PartId>{2, 3, 5});
    const auto other = like_ends(across.joints, across.bounds);
    REQUIRE(other);
    CHECK((*other)[0] == std::vector<work::PartId>{0, 2, 6});
    CHECK((*other)[1] == std::vector<work::PartId>{1, 3, 7});
  }

  TEST_CASE("each joint is glued once: with its end, or with the whole") {
    const Base base(1200, 650);
    const auto stages = groups_first(*like_ends(base.joints, base.bounds), base.joints, 8);
    REQUIRE(stages.size() == 3);
    CHECK(stages[0].joints == std::vector<work::JointId>{0, 1});
    CHECK(stages[1].joints == std::vector<work::JointId>{2, 3});
    CHECK(stages[2].joints == std::vector<work::JointId>{4, 5, 6, 7});
    CHECK(stages[0].units == std::vector<std::vector<work::PartId>>{{0}, {1}, {4}});
    CHECK(stages[2].units == std::vector<std::vector<work::PartId>>{{0, 1, 4}, {2, 3, 5}, {6}, {7}});
  }

  TEST_CASE("ends that differ, and four joints, are none") {
    Base odd(1200, 650);
    odd.bounds[5].hi.z -= 30;  // a lower rail on the right: the other pair is left
    const auto ends = like_ends(odd.joints, odd.bounds);
    REQUIRE(ends);
    CHECK((*ends)[0] == std::vector<work::PartId>{0, 2, 6});
    odd.bounds[7].hi.z -= 30;
    CHECK_FALSE(like_ends(odd.joints, odd.bounds));
    Base few(1200, 650);
    few.joints.resize(4);
    CHECK_FALSE(like_ends(few.joints, few.bounds));
  }

  TEST_CASE("rows of boards are no legs and rails") {
    // Three rows of three boards, all along x.
    std::vector<geometry::Box> bounds;
    std::vector<work::Joint> joints;
    for (int row = 0; row < 3; ++row) {
      for (int i = 0; i < 3; ++i) {
        bounds.push_back({{200.0 * i, 40.0 * row, 0}, {200.0 * (i + 1), 40.0 * (row + 1), 20}});
      }
    }
    for (work::PartId part = 0; part < 9; ++part) {
      for (const work::PartId next : {part + 1, part + 3}) {
        if (next < 9 && (next == part + 3 || part % 3 < 2)) {
          joints.emplace_back();
          joints.back().parts = {part, next};
        }
      }
    }
    CHECK_FALSE(like_ends(joints, bounds));
  }
}

}  // namespace planner::stage
