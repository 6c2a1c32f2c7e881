#include "geometry/bearing.h"

#include <doctest/doctest.h>

#include "geometry/boards_test.h"
#include "geometry/crossing.h"

using namespace geometry;
using doctest::Approx;

namespace {

double free_mm2(const BearingFace& face) {
  double sum = 0;
  for (const Polygon& region : face.regions) {
    sum += area_mm2(region);
  }
  return sum;
}

}  // namespace

TEST_SUITE("geometry/bearing") {
  TEST_CASE("a clamp across the chest bears on the whole of lid and bottom, and nothing else") {
    const std::vector<BearingFace> found = find_bearing_faces(chest_boards(), {0, 0, 1}, {});
    REQUIRE(found.size() == 2);
    CHECK(found[0].solid == 5);
    CHECK(found[0].normal == Direction{0, 0, 1});
    CHECK(found[0].offset_mm == 8 * 25.4);
    CHECK(free_mm2(found[0]) == Approx(14 * 9 * kIn2));
    CHECK(found[1].solid == 0);
    CHECK(found[1].offset_mm == 0);
    CHECK(found[1].normal == Direction{0, 0, -1});
  }

  TEST_CASE("lengthwise the ends, the walls' ends and the edges of lid and bottom bear") {
    const std::vector<BearingFace> found = find_bearing_faces(chest_boards(), {1, 0, 0}, {});
    double right = 0;
    for (const BearingFace& face : found) {
      right += face.normal.x > 0 ? free_mm2(face) : 0;
      CHECK(std::abs(face.offset_mm - (face.normal.x > 0 ? 14 * 25.4 : 0)) < 1e-9);
    }
    CHECK(right == Approx(9 * 8 * kIn2));
    CHECK(found.size() == 10);
    CHECK(found.front().solid == 0);
  }

  TEST_CASE("a face behind another part bears only where it is free") {
    const std::vector<Solid> step = {board(mm_box(0, 0, 0, 100, 50, 20)),
                                     board(mm_box(60, 0, 200, 160, 50, 220))};
    const std::vector<BearingFace> found = find_bearing_faces(step, {0, 0, 1}, {});
    REQUIRE(found.size() == 4);
    CHECK(found[0].solid == 1);
    CHECK(found[1].solid == 0);
    CHECK(free_mm2(found[1]) == Approx(60 * 50));
    CHECK(found[2].solid == 0);
    CHECK(free_mm2(found[3]) == Approx(60 * 50));  // the far board's underside
  }

  // Outside, closed form: a square's diagonal
  TEST_CASE("a mitre block's oblique face bears along its own normal") {
    const std::vector<Solid> block = {
        clip(board(mm_box(0, 0, 0, 100, 100, 20)), {{1, 1, 0}, {Length::whole_mm(100), {}, {}}})};
    const std::vector<BearingFace> found = find_bearing_faces(block, unit({1, 1, 0}), {});
    REQUIRE(found.size() == 1);
    CHECK(free_mm2(found[0]) == Approx(100 * std::sqrt(2.0) * 20));
    CHECK(find_bearing_faces(block, {0, 1, 0}, {}).size() == 1);  // the foot, looking down y
  }

  TEST_CASE("a line through the chest's middle passes lid and bottom, one near its edge the wall") {
    const std::vector<Solid> chest = chest_boards();
    const std::vector<Crossing> middle = crossings(chest, {177.8, 114.3, -50}, {0, 0, 1});
    REQUIRE(middle.size() == 2);
    CHECK(middle[0].solid == 0);
    CHECK(middle[0].enter_mm == Approx(0));
    CHECK(middle[0].leave_mm == Approx(19.05));
    CHECK(middle[1].solid == 5);
    CHECK(middle[1].enter_mm == Approx(7.25 * 25.4));
    const std::vector<Crossing> wall = crossings(chest, {177.8, 5, 0}, {0, 0, 1});
    REQUIRE(wall.size() == 3);
    CHECK(wall[1].solid == 4);
    CHECK(wall[1].enter_mm == Approx(0.375 * 25.4));
    CHECK(wall[1].leave_mm == Approx(7.625 * 25.4));
  }

  TEST_CASE("a line along a face grazes, along a seam inside a solid it passes") {
    const std::vector<Solid> boards = {
        board(mm_box(0, 0, 0, 100, 90, 20)),
        cut(board(mm_box(0, 90, 0, 100, 180, 20)), mm_box(0, 90, 10, 30, 180, 20))};
    CHECK(crossings(boards, {0, 45, 0}, {1, 0, 0}).empty());
    CHECK(crossings(boards, {0, 45, 20}, {1, 0, 0}).empty());
    CHECK(crossings(boards, {0, 90, 5}, {1, 0, 0}).empty());  // the joint between two boards
    const std::vector<Crossing> seam = crossings(boards, {0, 120, 10}, {1, 0, 0});
    REQUIRE(seam.size() == 1);
    CHECK(seam[0].enter_mm == Approx(30));  // over the rabbet's floor it only grazes
    CHECK(seam[0].leave_mm == Approx(100));
  }

  TEST_CASE("positions along a line are those along the axis, wherever the line is given") {
    const std::vector<Solid> boards = {board(mm_box(10, 0, 0, 100, 90, 20))};
    for (const double x : {-1000.0, 0.0, 50.0}) {
      const std::vector<Crossing> found = crossings(boards, {x, 45, 10}, {1, 0, 0});
      REQUIRE(found.size() == 1);
      CHECK(found[0].enter_mm == Approx(10));
      CHECK(found[0].leave_mm == Approx(100));
    }
    const std::vector<Crossing> across = crossings(boards, {55, 45, 10}, unit({1, 1, 0}));
    REQUIRE(across.size() == 1);
    CHECK(across[0].leave_mm - across[0].enter_mm == Approx(90 * std::sqrt(2.0)));
  }
}
