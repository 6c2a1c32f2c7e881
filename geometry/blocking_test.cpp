#include "geometry/blocking.h"

#include <doctest/doctest.h>

#include "geometry/boards_test.h"

using namespace geometry;

namespace {

const std::vector<Direction> kSixWays = {{1, 0, 0},  {-1, 0, 0}, {0, 1, 0},
                                         {0, -1, 0}, {0, 0, 1},  {0, 0, -1}};
enum Way { kRight, kLeft, kBack, kFront, kUp, kDown };

}  // namespace

TEST_SUITE("geometry/blocking") {
  TEST_CASE("the chest's lid lifts off, and stops every wall from rising") {
    const std::vector<Solid> chest = chest_boards();  // bottom back left right front lid
    const Blocking b = find_blocking(chest, kSixWays, {});
    for (std::size_t other = 0; other < 5; ++other) {
      CHECK_FALSE(b.blocked(kUp, 5, other));
      CHECK(b.blocked(kUp, other, 5));
      CHECK(b.blocked(kDown, 5, other));
    }
    CHECK(b.blocked(kRight, 5, 3));  // its plug sits between the walls
    CHECK(b.blocked(kRight, 2, 3));
    CHECK(b.blocked(kRight, 2, 4));       // the front's shoulder keeps the left end in
    CHECK_FALSE(b.blocked(kLeft, 2, 4));  // but out to the left it may go
    CHECK_FALSE(b.blocked(kFront, 4, 2));
    CHECK(b.blocked(kFront, 1, 4));
  }

  TEST_CASE("what blocks one way is blocked by the other the opposite way") {
    const std::vector<Solid> chest = chest_boards();
    const Blocking b = find_blocking(chest, kSixWays, {});
    for (std::size_t way = 0; way < 6; way += 2) {
      for (std::size_t i = 0; i < chest.size(); ++i) {
        for (std::size_t j = 0; j < chest.size(); ++j) {
          CHECK(b.blocked(way, i, j) == b.blocked(way + 1, j, i));
        }
      }
    }
  }

  TEST_CASE("a dovetailed batten slides along its socket and no other way") {
    const auto trapezium = [](double grow) {
      return std::vector<HalfSpace>{
          {{-4, -1, 0}, {Length::nm(std::llround((40 - grow) * 1e6)), Length{}, Length{}}},
          {{4, -1, 0}, {Length::nm(std::llround((60 + grow) * 1e6)), Length{}, Length{}}},
          {{0, 1, 0}, {Length{}, Length::whole_mm(20), Length{}}},
          {{0, -1, 0}, {Length{}, Length::whole_mm(0), Length{}}},
          {{0, 0, 1}, {Length{}, Length{}, Length::whole_mm(200)}},
          {{0, 0, -1}, {Length{}, Length{}, Length::whole_mm(0)}}};
    };
    Solid batten = board(mm_box(0, 0, 0, 100, 60, 200));
    for (const HalfSpace& keep : trapezium(0)) {
      batten = clip(batten, keep);
    }
    const std::vector<Direction> ways = {{0, 0, 1},  {0, 0, -1}, {1, 0, 0},
                                         {0, -1, 0}, {0, 1, 0},  {0.1, -1, 0}};
    for (const double grow : {0.0, 0.1, -0.02}) {  // snug, loose, and drawn a little too tight
      const std::vector<Solid> parts = {batten,
                                        cut(board(mm_box(0, 0, 0, 100, 60, 200)), trapezium(grow))};
      const Blocking b = find_blocking(parts, ways, {});
      CHECK_FALSE(b.blocked(0, 0, 1));
      CHECK_FALSE(b.blocked(1, 0, 1));
      CHECK(b.blocked(2, 0, 1));
      CHECK(b.blocked(3, 0, 1));
      CHECK(b.blocked(4, 0, 1));
      CHECK(b.blocked(5, 0, 1));
    }
  }

  TEST_CASE("a mitred rail draws off square to its mitre but not through its neighbour") {
    const std::vector<Solid> frame = {clip(board(mm_box(0, 0, 0, 60, 300, 20)), {{1, -1, 0}, {}}),
                                      clip(board(mm_box(0, 0, 0, 300, 60, 20)), {{-1, 1, 0}, {}})};
    const Blocking b = find_blocking(
        frame, std::vector<Direction>{{-1, 1, 0}, {1, -1, 0}, {1, 1, 0}, {0, 1, 0}, {0.001, -1, 0}},
        {});
    CHECK_FALSE(b.blocked(0, 0, 1));
    CHECK(b.blocked(1, 0, 1));
    CHECK_FALSE(b.blocked(2, 0, 1));  // sliding along the mitre
    CHECK_FALSE(b.blocked(3, 0, 1));
    CHECK(b.blocked(4, 0, 1));
  }

  TEST_CASE("a distant board still stops what is slid at it, one beside the way does not") {
    const std::vector<Solid> boards = {
        board(mm_box(0, 0, 0, 100, 20, 20)), board(mm_box(2000, 10, 0, 2100, 40, 20)),
        board(mm_box(2000, 19.97, 20, 2100, 40, 40)), board(mm_box(500, 500, 0, 600, 600, 20))};
    const Blocking b =
        find_blocking(boards, std::vector<Direction>{{1, 0, 0}, {-1, 0, 0}, {5, 5, 0}}, {});
    CHECK(b.blocked(0, 0, 1));
    CHECK_FALSE(b.blocked(1, 0, 1));
    CHECK_FALSE(b.blocked(0, 0, 2));
    CHECK_FALSE(b.blocked(0, 0, 3));
    CHECK(b.blocked(2, 0, 3));
    CHECK_FALSE(b.blocked(2, 0, 1));
  }
}
