#include "geometry/turn.h"

#include <numbers>

#include <doctest/doctest.h>

#include "geometry/boards_test.h"
#include "geometry/contact.h"
#include "geometry/overlap.h"

using namespace geometry;
using doctest::Approx;

TEST_SUITE("geometry/turn") {
  // Outside, closed form: rotation about an axis, by the C library's sine and cosine
  TEST_CASE("a board turned by any angle keeps its volume to the last digit") {
    const Solid b = cut(board(mm_box(0, 0, 0, 400, 60, 20)), mm_box(0, 0, 10, 20, 60, 20));
    for (const double angle :
         {0.0, 1e-9, 7.0, 30.0, 45.0, 89.999, 90.0, 123.4, 180.0, -60.0, 720.5}) {
      const Solid t = turned(b, {2, angle, {Length::whole_mm(50), Length{}, Length{}}});
      CHECK(volume_mm3(t) == volume_mm3(b));
      // The far end's corner lies where the handbook's rotation puts it.
      const double a = angle * std::numbers::pi / 180;
      const Point c = centroid(t), was = centroid(b);
      CHECK(c.x == Approx(50 + std::cos(a) * (was.x - 50) - std::sin(a) * was.y).epsilon(1e-11));
      CHECK(c.y == Approx(std::sin(a) * (was.x - 50) + std::cos(a) * was.y).epsilon(1e-11));
      CHECK(c.z == Approx(was.z).epsilon(1e-11));
    }
  }
  TEST_CASE("a quarter turn about each axis carries the next axis to the one after") {
    const Solid b = board(mm_box(1, 2, 3, 10, 20, 30));
    CHECK(bounds(turned(b, {2, 90, {}})).lo == Point{-20, 1, 3});
    CHECK(bounds(turned(b, {2, 90, {}})).hi == Point{-2, 10, 30});
    CHECK(bounds(turned(b, {0, 90, {}})).lo == Point{1, -30, 2});
    CHECK(bounds(turned(b, {1, 90, {}})).lo == Point{3, 2, -10});
    CHECK(bounds(turned(b, {1, -270, {}})).hi == Point{30, 20, -1});
    CHECK(bounds(turned(turned(b, {1, 90, {}}), {1, 270, {}})).lo == Point{1, 2, 3});
  }
  // Outside, closed form: a regular hexagon's mitres, width / cos 30
  TEST_CASE("six rails with 30 degree ends turned by 60 degrees close into a hexagon") {
    // Outside edge s = 200, rails 40 wide: each mitre is 40 / cos 30 long. Ends cut along the
    // hexagon's spokes: x from y tan 30 to s - y tan 30, the apothem a = s cos 30 up the middle.
    const std::int64_t tangent = std::llround(1e9 * std::tan(std::numbers::pi / 6));
    Solid rail = board(mm_box(0, 0, 0, 200, 40, 20));
    rail = clip(rail, {{-1'000'000'000, tangent, 0}, {}});
    rail = clip(rail, {{1'000'000'000, tangent, 0}, {Length::whole_mm(200), {}, {}}});
    const Length apothem = Length::nm(std::llround(200e6 * std::cos(std::numbers::pi / 6)));
    std::vector<Solid> frame;
    for (int i = 0; i < 6; ++i) {
      frame.push_back(turned(rail, {2, 60.0 * i, {Length::whole_mm(100), apothem, {}}}));
    }
    CHECK(find_overlaps(frame, {}).empty());
    const std::vector<Contact> found = find_contacts(frame, {});
    REQUIRE(found.size() == 6);
    for (const Contact& c : found) {
      CHECK(c.area_mm2 == Approx(20 * 40 / std::cos(std::numbers::pi / 6)).epsilon(1e-8));
      CHECK(c.gap_mm < 1e-5);
      CHECK(c.regions.size() == 1);
    }
  }
}
