#include "geometry/overlap.h"

#include <doctest/doctest.h>

#include "geometry/boards_test.h"

using namespace geometry;
using doctest::Approx;

TEST_SUITE("geometry/overlap") {
  TEST_CASE("boards drawn into each other share what both fill") {
    const std::vector<Solid> boards = {board(mm_box(0, 0, 0, 100, 90, 20)),
                                       board(mm_box(95, 0, 10, 180, 90, 30))};
    const std::vector<Overlap> found = find_overlaps(boards, {});
    REQUIRE(found.size() == 1);
    CHECK(found[0].volume_mm3 == 5.0 * 90 * 10);
    CHECK(found[0].where.lo == Point{95, 0, 10});
    CHECK(found[0].where.hi == Point{100, 90, 20});
  }
  TEST_CASE("boards that touch, and boards in each other by less than a shaving, do not overlap") {
    CHECK(find_overlaps(chest_boards(), {}).empty());
    const std::vector<Solid> boards = {board(mm_box(0, 0, 0, 100, 90, 20)),
                                       board(mm_box(99.97, 0, 0, 180, 90, 20))};
    CHECK(find_overlaps(boards, {}).empty());
    CHECK(find_overlaps(boards, Tolerance{0.15, 0.1, 0.01}).size() == 1);
  }
  // Outside, closed form: a triangle less a triangle
  TEST_CASE("a mitred end drawn 10 mm too long overlaps by a slice along the mitre") {
    const std::vector<Solid> frame = {
        clip(board(mm_box(0, 0, 0, 60, 300, 20)), {{1, -1, 0}, {}}),
        clip(board(mm_box(0, 0, 0, 300, 60, 20)),
             {{-1, 1, 0}, {Length{}, Length::whole_mm(10), Length{}}})};
    const std::vector<Overlap> found = find_overlaps(frame, {});
    REQUIRE(found.size() == 1);
    // Between y = x and y = x + 10, x from 0, y up to 60: (60 x 60 - 50 x 50) / 2.
    CHECK(found[0].volume_mm3 == Approx(550 * 20).epsilon(1e-14));
  }
}
