#include "geometry/folding.h"

#include <numbers>

#include <doctest/doctest.h>

#include "geometry/boards_test.h"

using namespace geometry;

namespace {

// What lies on the far side of (nx, ny) through (x, y).
HalfSpace half(int nx, int ny, int x, int y) {
  return {{nx, ny, 0}, {Length::whole_mm(x), Length::whole_mm(y), Length()}};
}

// Two walls 20 thick and 100 high that meet in a mitre along the corner at x = 0, y = 0: one to the
// right, one to the back.
Solid right_wall(double length) {
  return clip(board(mm_box(0, 0, 0, length, 20, 100)), half(-1, 1, 0, 0));
}
Solid back_wall(double length) {
  return clip(board(mm_box(0, 0, 0, 20, length, 100)), half(1, -1, 0, 0));
}
const Hinge kOuterCorner{{0, 0, 0}, {0, 0, 1}};
const Hinge kInnerCorner{{20, 20, 0}, {0, 0, 1}};
// The back wall folds open to the left, the right wall the other way round.
const Direction kLeft{-1, 0, 0};

}  // namespace

TEST_SUITE("geometry/folding") {
  TEST_CASE("a mitred wall folds open about its outer corner, and not about its inner one") {
    CHECK(surely_unfolds(back_wall(300), right_wall(400), kOuterCorner, 90, kLeft, {}));
    // The other way it would go through its neighbour.
    const Hinge backwards{{0, 0, 0}, {0, 0, -1}};
    CHECK_FALSE(surely_unfolds(back_wall(300), right_wall(400), backwards, 90, kLeft, {}));
    CHECK_FALSE(surely_unfolds(back_wall(300), right_wall(400), kInnerCorner, 90, kLeft, {}));
  }

  TEST_CASE("the last wall of a mitred box folds off its neighbour and away from the first") {
    // Clockwise from the front: the left wall turns about its corner with the back.
    const Solid front =
        clip(clip(board(mm_box(0, 0, 0, 400, 20, 100)), half(-1, 1, 0, 0)), half(1, 1, 400, 0));
    const Solid left = clip(back_wall(300), half(1, 1, 0, 300));
    const Solid back = clip(board(mm_box(0, 280, 0, 400, 300, 100)), half(-1, -1, 0, 300));
    const Hinge corner{{0, 300, 0}, {0, 0, -1}};
    CHECK(surely_unfolds(left, back, corner, 90, kLeft, {}));
    CHECK(surely_unfolds(left, front, corner, 90, kLeft, {}));
  }

  TEST_CASE("a floating bottom lets its walls fold round it, a tenon holds its wall") {
    const Solid bottom = board(mm_box(14, 14, 10, 386, 286, 16));
    const Solid grooved = cut(back_wall(300), mm_box(13, 0, 10, 20, 300, 16));
    CHECK(surely_unfolds(grooved, bottom, kOuterCorner, 90, kLeft, {}));
    const Solid tenon = board(mm_box(5, 100, 40, 80, 140, 60));
    const Solid mortised = cut(back_wall(300), mm_box(5, 100, 40, 20, 140, 60));
    CHECK_FALSE(surely_unfolds(mortised, tenon, kOuterCorner, 90, kLeft, {}));
  }

  TEST_CASE("what stands in the way of the turn stops it, what stands beside does not") {
    const Solid wall = back_wall(300);
    CHECK_FALSE(surely_unfolds(wall, board(mm_box(-200, 200, 0, -180, 220, 50)), kOuterCorner, 90,
                               kLeft, {}));
    CHECK(surely_unfolds(wall, board(mm_box(-200, 200, 101, -180, 220, 150)), kOuterCorner, 90,
                         kLeft, {}));
    CHECK(surely_unfolds(wall, board(mm_box(-280, 280, 0, -260, 300, 50)), kOuterCorner, 90, kLeft,
                         {}));
    // Clear of the turn, but in the way once it is drawn off.
    CHECK_FALSE(
        surely_unfolds(wall, board(mm_box(-500, 0, 0, -480, 20, 50)), kOuterCorner, 90, kLeft, {}));
  }
}
