#include "planner/stage/slabs_first.h"

#include <doctest/doctest.h>

namespace planner::stage {
namespace {

using Parts = std::vector<work::PartId>;

// Boards of 1.5 m edge to edge along y, in the order of the list, glued on the faces between.
struct Row {
  std::vector<geometry::Box> bounds;
  std::vector<work::Joint> joints;

  explicit Row(const std::vector<double>& widths) {
    double y = 0;
    for (const double width : widths) {
      bounds.push_back({{0, y, 0}, {1500, y + width, 20}});
      y += width;
    }
    for (work::PartId part = 1; part < widths.size(); ++part) {
      work::Joint joint;
      joint.parts = {part - 1, part};
      joint.kind = work::JointKind::edge;
      joint.faces.emplace_back();
      joint.faces.front().contact.normal = {0, 1, 0};
      joint.faces.front().contact.length_mm = 1500;
      joints.push_back(joint);
    }
  }
};

}  // namespace

TEST_SUITE("stage/slabs first") {
  TEST_CASE("boards edge to edge are a row, by their places") {
    const Row six({90, 90, 90, 90, 90, 90});
    const auto row = board_row(six.joints, six.bounds);
    REQUIRE(row);
    CHECK(row->boards == Parts{0, 1, 2, 3, 4, 5});
    CHECK(row->whole_mm() == 540);
    CHECK(row->wet_mm == 5 * 1500);
    CHECK_FALSE(board_row(Row({90, 90, 90}).joints, Row({90, 90, 90}).bounds));
    Row ends = six;  // a breadboard end on them
    ends.joints.push_back(ends.joints.front());
    ends.joints.back().kind = work::JointKind::mortise_and_tenon;
    CHECK_FALSE(board_row(ends.joints, ends.bounds));
    Row dry = six;
    dry.joints[2].glued = false;
    CHECK(board_row(dry.joints, dry.bounds)->wet_mm == 4 * 1500);
  }

  TEST_CASE("8 m of edges are too many alone, 12 with a helper") {
    const Row seven(std::vector<double>(7, 80));  // 9 m
    const auto row = board_row(seven.joints, seven.bounds);
    CHECK(too_many_edges(*row, 1));
    CHECK_FALSE(too_many_edges(*row, 2));
  }

  TEST_CASE("slabs are as equal as can be, and go through the planer") {
    const Row six({90, 90, 90, 90, 90, 90});
    const auto row = board_row(six.joints, six.bounds);
    CHECK(*slabs_of(*row, 2, 304.8) == std::vector<Parts>{{0, 1, 2}, {3, 4, 5}});
    CHECK_FALSE(slabs_of(*row, 2, 250));
    CHECK(*slabs_of(*row, 3, 250) == std::vector<Parts>{{0, 1}, {2, 3}, {4, 5}});
    CHECK_FALSE(slabs_of(*row, 4, 250));  // a board alone is no slab
    const Row uneven({200, 50, 50, 50, 50});
    CHECK(*slabs_of(*board_row(uneven.joints, uneven.bounds), 2, 304.8) == std::vector<Parts>{{0, 1}, {2, 3, 4}});
    // The wide board's share would want it alone: two boards each, and no more than that for its sake.
    const Row wide({100, 100, 100, 100, 400});
    CHECK(*slabs_of(*board_row(wide.joints, wide.bounds), 2, 600) == std::vector<Parts>{{0, 1, 2}, {3, 4}});
  }

  TEST_CASE("each slab by itself, then all of them") {
    const Row six({90, 90, 90, 90, 90, 90});
    const auto slabs = slabs_of(*board_row(six.joints, six.bounds), 2, 304.8);
    const auto stages = groups_first(*slabs, six.joints, 6);
    REQUIRE(stages.size() == 3);
    CHECK(stages[0].joints == std::vector<work::JointId>{0, 1});
    CHECK(stages[1].joints == std::vector<work::JointId>{3, 4});
    CHECK(stages[2].joints == std::vector<work::JointId>{2});
    CHECK(stages[2].units == *slabs);
  }
}

}  // namespace planner::stage
