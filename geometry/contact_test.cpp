#include "geometry/contact.h"

#include <doctest/doctest.h>

#include "geometry/boards_test.h"

using namespace geometry;
using doctest::Approx;

namespace {

double glued_mm2(const std::vector<Contact>& contacts) {
  double sum = 0;
  for (const Contact& c : contacts) {
    sum += c.area_mm2;
  }
  return sum;
}

const Tolerance kTolerance;

}  // namespace

TEST_SUITE("geometry/contact") {
  TEST_CASE("two boards edge to edge touch in one face, long along the boards") {
    const std::vector<Solid> boards = {board(mm_box(0, 0, 0, 1200, 90, 20)),
                                       board(mm_box(0, 90, 0, 1200, 180, 20))};
    const std::vector<Contact> found = find_contacts(boards, kTolerance);
    REQUIRE(found.size() == 1);
    const Contact& c = found[0];
    CHECK(c.area_mm2 == 1200.0 * 20);
    CHECK(c.gap_mm == 0);
    CHECK(c.normal == Direction{0, 1, 0});
    CHECK(c.along == Direction{1, 0, 0});
    CHECK(c.length_mm == 1200);
    CHECK(c.width_mm == 20);
    CHECK(c.centroid.x == Approx(600));
    CHECK(c.centroid.y == Approx(90));
    CHECK(c.centroid.z == Approx(10));
  }

  TEST_CASE("boards that share only an edge do not touch") {
    const std::vector<Solid> boards = {board(mm_box(0, 0, 0, 100, 90, 20)),
                                       board(mm_box(0, 90, 20, 100, 180, 40))};
    CHECK(find_contacts(boards, kTolerance).empty());
  }

  // Outside, closed form: sums of rectangles (fixtures/hive_tool_chest/worked.md)
  TEST_CASE("the rabbeted chest is glued on 127 1/8 square inches") {
    // Rims 2 x 32.25, lid and bottom against the walls inside 2 x 15, corners 4 x (3/4 + 3/8) x
    // 7 1/4: docs/method.md.
    const std::vector<Contact> found = find_contacts(chest_boards(), kTolerance);
    CHECK(glued_mm2(found) == Approx(127.125 * kIn2).epsilon(1e-14));
    CHECK(found.size() == 24);  // twelve pairs of boards, two faces each

    double rim = 0, corner_shoulders = 0;
    for (const Contact& c : found) {
      rim += c.b == 5 && std::abs(c.normal.z) == 1 ? c.area_mm2 : 0;
      corner_shoulders += c.a != 0 && c.b != 5 && std::abs(c.normal.x) == 1 ? c.area_mm2 : 0;
    }
    CHECK(rim == Approx(32.25 * kIn2).epsilon(1e-14));
    CHECK(corner_shoulders == Approx(2 * 5.4375 * kIn2).epsilon(1e-14));
  }

  TEST_CASE("pieces on one plane are one contact with two regions") {
    // A rail across two posts' worth of the same board: a bridge with its middle cut away.
    const std::vector<Solid> boards = {
        board(mm_box(0, 0, 0, 300, 60, 20)),
        cut(board(mm_box(0, 0, 20, 300, 60, 60)), mm_box(100, 0, 20, 180, 60, 40))};
    const std::vector<Contact> found = find_contacts(boards, kTolerance);
    REQUIRE(found.size() == 1);
    CHECK(found[0].regions.size() == 2);
    CHECK(area_mm2(found[0].regions[0]) == Approx(120.0 * 60));  // largest first
    CHECK(found[0].area_mm2 == 220.0 * 60);
    CHECK(found[0].length_mm == 300);
  }

  // Outside, closed form: sums of rectangles from the sizes alone
  TEST_CASE("a square tenon's cheeks and shoulder are found in its mortise") {
    const std::vector<Solid> parts = {
        cut(board(mm_box(0, 0, 0, 60, 60, 400)), mm_box(24, 20, 300, 60, 40, 340)),
        cut(cut(cut(cut(board(mm_box(24, 0, 290, 500, 60, 350)), mm_box(24, 0, 290, 60, 60, 300)),
                    mm_box(24, 0, 340, 60, 60, 350)),
                mm_box(24, 0, 290, 60, 20, 350)),
            mm_box(24, 40, 290, 60, 60, 350))};
    const std::vector<Contact> found = find_contacts(parts, kTolerance);
    // Shoulder 60 x 60 less the tenon 20 x 40; two cheeks 36 x 40, two 36 x 20; end 20 x 40.
    REQUIRE(found.size() == 6);
    CHECK(glued_mm2(found) == 60.0 * 60 - 20 * 40 + 2 * 36 * 40 + 2 * 36 * 20 + 20 * 40);
    CHECK(found[0].area_mm2 == 60.0 * 60 - 20 * 40);
    CHECK(found[0].regions[0].holes.size() == 1);
  }

  TEST_CASE("a gap within tolerance is a contact with that gap, a wider one is none") {
    const auto boards = [](double gap) {
      return std::vector<Solid>{board(mm_box(0, 0, 0, 100, 90, 20)),
                                board(mm_box(0, 90 + gap, 0, 100, 180, 20))};
    };
    const std::vector<Contact> near = find_contacts(boards(0.1), kTolerance);
    REQUIRE(near.size() == 1);
    CHECK(near[0].gap_mm == 0.1);
    CHECK(near[0].area_mm2 == 2000);
    CHECK(find_contacts(boards(0.2), kTolerance).empty());
    CHECK(find_contacts(boards(0.2), Tolerance{0.25, 0.1, 0.05}).size() == 1);
    // A drawing 0.02 mm too tight still is a joint.
    REQUIRE(find_contacts(boards(-0.02), kTolerance).size() == 1);
    CHECK(find_contacts(boards(-0.02), kTolerance)[0].gap_mm == 0);
  }

  // Outside, closed form: a square's diagonal
  TEST_CASE("a mitred corner touches in its mitre, root two longer than the boards are wide") {
    const HalfSpace end{{1, 1, 0}, {Length::whole_mm(60), Length{}, Length{}}};
    const HalfSpace other{{-1, -1, 0}, {Length::whole_mm(60), Length{}, Length{}}};
    const std::vector<Solid> frame = {clip(board(mm_box(0, 0, 0, 60, 300, 20)), {{1, -1, 0}, {}}),
                                      clip(board(mm_box(0, 0, 0, 300, 60, 20)), {{-1, 1, 0}, {}})};
    const std::vector<Contact> found = find_contacts(frame, kTolerance);
    REQUIRE(found.size() == 1);
    CHECK(found[0].area_mm2 == Approx(60 * std::sqrt(2.0) * 20).epsilon(1e-15));
    CHECK(length(found[0].along - unit({1, 1, 0})) < 1e-12);
    CHECK(found[0].length_mm == Approx(60 * std::sqrt(2.0)));
    CHECK(found[0].width_mm == Approx(20));
    CHECK(found[0].gap_mm == 0);
    CHECK(find_contacts(std::vector<Solid>{clip(frame[0], end), clip(frame[1], other)}, kTolerance)
              .empty());
  }

  TEST_CASE("faces out of true by less than the tolerance touch, the gap is the widest") {
    // The second board's edge rises 0.1 mm over its 100 mm: 0.057 degrees.
    const std::vector<Solid> boards = {
        board(mm_box(0, 0, 0, 100, 90, 20)),
        clip(board(mm_box(0, 89, 0, 100, 180, 20)),
             {{1, -1000, 0}, {Length{}, Length::whole_mm(90), Length{}}})};
    const std::vector<Contact> found = find_contacts(boards, kTolerance);
    REQUIRE(found.size() == 1);
    CHECK(found[0].gap_mm == Approx(0.1).epsilon(1e-6));
    CHECK(found[0].area_mm2 == Approx(2000).epsilon(1e-6));
    CHECK(find_contacts(boards, Tolerance{0.15, 0.05, 0.05}).empty());
    // Where the gap grows past what the glue fills, only the near part counts: 50 mm of it.
    CHECK(find_contacts(boards, Tolerance{0.05, 0.1, 0.05})[0].area_mm2 ==
          Approx(1000).epsilon(1e-6));
  }

  TEST_CASE("the long direction of a square face is the lower axis") {
    const std::vector<Solid> blocks = {board(mm_box(0, 0, 0, 40, 40, 40)),
                                       board(mm_box(0, 0, 40, 40, 40, 80))};
    CHECK(find_contacts(blocks, kTolerance)[0].along == Direction{1, 0, 0});
  }
}
