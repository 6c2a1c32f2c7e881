#include "geometry/solid.h"

#include <cmath>

#include <doctest/doctest.h>

#include "geometry/boards_test.h"

using namespace geometry;
using doctest::Approx;

namespace {

double surface_mm2(const Solid& solid) {
  double sum = 0;
  for (const Facet& facet : facets(solid)) {
    sum += facet.area_mm2;
  }
  return sum;
}

const Facet* facet_looking(const std::vector<Facet>& all, const Direction& normal, double offset) {
  for (const Facet& facet : all) {
    if (length(facet.normal - normal) < 1e-12 && std::abs(facet.offset_mm - offset) < 1e-9) {
      return &facet;
    }
  }
  return nullptr;
}

}  // namespace

TEST_SUITE("geometry/solid") {
  // Outside, closed form: a box's volume and surface
  TEST_CASE("a board has six faces and the volume of its sides") {
    const Solid b = board(mm_box(0, 0, 0, 400, 100, 18));
    CHECK(volume_mm3(b) == 400.0 * 100 * 18);
    CHECK(facets(b).size() == 6);
    CHECK(surface_mm2(b) == 2.0 * (400 * 100 + 400 * 18 + 100 * 18));
    CHECK(piece_count(b) == 1);
    CHECK(centroid(b) == Point{200, 50, 9});
  }

  // Outside, closed form: sums of boxes and rectangles
  TEST_CASE("a rabbet leaves two faces where the edge was, and no seam on the others") {
    // 400 x 100 x 18 with 18 x 9 taken off along one end: eight faces.
    const Solid b = cut(board(mm_box(0, 0, 0, 400, 100, 18)), mm_box(382, 0, 9, 400, 100, 18));
    CHECK(volume_mm3(b) == 400.0 * 100 * 18 - 18 * 100 * 9);
    const std::vector<Facet> all = facets(b);
    CHECK(all.size() == 8);
    const Facet* cheek = facet_looking(all, {0, 0, 1}, 9);
    REQUIRE(cheek);
    CHECK(cheek->area_mm2 == 18.0 * 100);
    const Facet* side = facet_looking(all, {0, -1, 0}, 0);
    REQUIRE(side);
    CHECK(side->area_mm2 == 400.0 * 18 - 18 * 9);
    REQUIRE(side->regions.size() == 1);
    CHECK(side->regions[0].outer.size() == 6);
    CHECK(area_mm2(side->regions[0]) == Approx(side->area_mm2).epsilon(1e-12));
  }

  // Outside, closed form: a rectangle less a rectangle
  TEST_CASE("a lid rabbeted all round is two boxes, its rim one face with a hole") {
    Solid lid = board(inch_box(0, 0, 0, 14, 9, 0.75));
    const double w = 0.75, d = 0.375;
    lid = cut(lid, inch_box(0, 0, 0, w, 9, d));
    lid = cut(lid, inch_box(14 - w, 0, 0, 14, 9, d));
    lid = cut(lid, inch_box(0, 0, 0, 14, w, d));
    lid = cut(lid, inch_box(0, 9 - w, 0, 14, 9, d));
    CHECK(cell_points(lid).size() == 2);
    const std::vector<Facet> all = facets(lid);
    const Facet* rim = facet_looking(all, {0, 0, -1}, -25.4 * d);
    REQUIRE(rim);
    CHECK(rim->area_mm2 == Approx(32.25 * kIn2).epsilon(1e-15));
    REQUIRE(rim->regions.size() == 1);
    CHECK(rim->regions[0].holes.size() == 1);
    CHECK(area_mm2(rim->regions[0]) == Approx(32.25 * kIn2).epsilon(1e-12));
  }

  TEST_CASE("a through mortise opens a hole in both faces") {
    const Solid b = cut(board(mm_box(0, 0, 0, 60, 40, 400)), mm_box(24, 0, 300, 36, 40, 360));
    const std::vector<Facet> all = facets(b);
    const Facet* front = facet_looking(all, {0, -1, 0}, 0);
    REQUIRE(front);
    REQUIRE(front->regions.size() == 1);
    CHECK(front->regions[0].holes.size() == 1);
    CHECK(front->area_mm2 == 60.0 * 400 - 12 * 60);
    // Counter-clockwise seen from outside: the ring's vector area looks along the normal.
    const Ring& ring = front->regions[0].outer;
    const Direction turn = cross(ring[1] - ring[0], ring[2] - ring[1]);
    CHECK(dot(turn, front->normal) > 0);
  }

  TEST_CASE("a cut right through parts a board in two, one that eats it leaves nothing") {
    const Solid b = board(mm_box(0, 0, 0, 400, 100, 18));
    CHECK(piece_count(cut(b, mm_box(100, -1, -1, 103, 101, 19))) == 2);
    CHECK(is_empty(cut(b, mm_box(-1, -1, -1, 401, 101, 19))));
    CHECK(volume_mm3(cut(b, mm_box(-1, -1, -1, 401, 101, 19))) == 0);
    CHECK(facets(cut(b, mm_box(-1, -1, -1, 401, 101, 19))).empty());
  }

  TEST_CASE("two halves that meet only along an edge are two pieces") {
    Solid b = board(mm_box(0, 0, 0, 100, 100, 18));
    b = cut(b, mm_box(0, 0, 0, 50, 50, 18));
    b = cut(b, mm_box(50, 50, 0, 100, 100, 18));
    CHECK(piece_count(b) == 2);
    // On the top face they touch in a point: two squares, not one ring crossing itself.
    const std::vector<Facet> all = facets(b);
    const Facet* top = facet_looking(all, {0, 0, 1}, 18);
    REQUIRE(top);
    CHECK(top->regions.size() == 2);
    CHECK(top->regions[0].outer.size() == 4);
  }

  // Outside, closed form: a trapezium's area and centroid
  TEST_CASE("a mitred end takes half a square off, its face is root two wide") {
    // Keep x + y <= 400 of a board 400 x 60 x 20.
    const HalfSpace keep{{1, 1, 0}, {Length::whole_mm(400), Length{}, Length{}}};
    const Solid b = clip(board(mm_box(0, 0, 0, 400, 60, 20)), keep);
    CHECK(volume_mm3(b) == 400.0 * 60 * 20 - 0.5 * 60 * 60 * 20);
    const std::vector<Facet> all = facets(b);
    const Facet* mitre = facet_looking(all, unit({1, 1, 0}), 400 / std::sqrt(2.0));
    REQUIRE(mitre);
    CHECK(mitre->area_mm2 == Approx(60 * std::sqrt(2.0) * 20).epsilon(1e-15));
    CHECK(all.size() == 6);
    CHECK(centroid(b).z == Approx(10));
    // The long side is the trapezium's: (340 + 400) / 2 long in the mean.
    CHECK(centroid(b).x == Approx((340.0 * 170 + 30 * 360) / 370));
  }

  // Outside, closed form: trapezia
  TEST_CASE("a mitred and rabbeted board keeps its faces whole across its cells") {
    const HalfSpace keep{{1, 1, 0}, {Length::whole_mm(400), Length{}, Length{}}};
    Solid b = clip(board(mm_box(0, 0, 0, 400, 60, 20)), keep);
    b = cut(b, mm_box(-1, 50, 10, 401, 61, 21));  // along the short edge: 350 to 340 long
    CHECK(volume_mm3(b) == Approx(400.0 * 60 * 20 - 0.5 * 60 * 60 * 20 - 345 * 10 * 10));
    const std::vector<Facet> all = facets(b);
    CHECK(all.size() == 8);
    const Facet* mitre = facet_looking(all, unit({1, 1, 0}), 400 / std::sqrt(2.0));
    REQUIRE(mitre);
    CHECK(mitre->regions.size() == 1);
    CHECK(mitre->regions[0].outer.size() == 6);
    CHECK(mitre->area_mm2 == Approx((60 * 20 - 10 * 10) * std::sqrt(2.0)).epsilon(1e-15));
  }

  // Outside, closed form: a trapezium's area
  TEST_CASE("a dovetail socket is cut by half spaces and keeps the board in one piece") {
    // A socket 20 deep into y, 20 wide at the mouth and 30 at the floor: a trapezium of 500 mm2.
    const Solid b = board(mm_box(0, 0, 0, 100, 60, 20));
    const std::vector<HalfSpace> tool = {{{-4, -1, 0}, {Length::whole_mm(40), Length{}, Length{}}},
                                         {{4, -1, 0}, {Length::whole_mm(60), Length{}, Length{}}},
                                         {{0, 1, 0}, {Length{}, Length::whole_mm(20), Length{}}},
                                         {{0, -1, 0}, {Length{}, Length::whole_mm(-1), Length{}}},
                                         {{0, 0, 1}, {Length{}, Length{}, Length::whole_mm(21)}},
                                         {{0, 0, -1}, {Length{}, Length{}, Length::whole_mm(-1)}}};
    const Solid socket = cut(b, tool);
    CHECK(volume_mm3(socket) == Approx(100.0 * 60 * 20 - 500 * 20).epsilon(1e-15));
    CHECK(piece_count(socket) == 1);
  }

  TEST_CASE("cutting in a half space that looks along an axis stays on the lattice") {
    const HalfSpace keep{{-7, 0, 0}, {Length::whole_mm(100), Length{}, Length{}}};
    const Solid b = clip(board(mm_box(0, 0, 0, 400, 60, 20)), keep);
    CHECK(volume_mm3(b) == 300.0 * 60 * 20);
    CHECK(bounds(b).lo == Point{100, 0, 0});
  }

  // Outside, closed form: a corner pyramid, abc / 6
  TEST_CASE("a sheet of 30 m and a chip of a nanometre are both exact") {
    const Length side = Length::whole_mm(30'000);
    const Solid big = board({{Length{}, Length{}, Length{}}, {side, side, side}});
    CHECK(volume_mm3(big) == 2.7e13);
    CHECK(surface_mm2(big) == 6 * 9e8);
    const Length nm = Length::nm(1);
    const Solid less = cut(big, LatticeBox{{Length{}, Length{}, Length{}}, {nm, nm, nm}});
    CHECK(facets(less).size() == 9);
    CHECK(piece_count(less) == 1);
    const HalfSpace keep{{1, 1, 1}, {Length{}, Length{}, nm}};
    CHECK(volume_mm3(clip(big, keep)) == Approx(1e-18 / 6).epsilon(1e-12));
  }

  TEST_CASE("a volume is the double nearest to the exact one") {
    // Half of each block is clipped off along a diagonal.
    const auto half = [](double x, double y, double z) {
      const HalfSpace keep{{1, -std::lround(x / y), 0}, {Length{}, Length{}, Length{}}};
      return volume_mm3(clip(board(mm_box(0, 0, 0, x, y, z)), keep));
    };
    CHECK(half(300, 150, 15.265) == 343462.5);
    CHECK(half(0.5, 0.5, 0.024) == 0.003);
    CHECK(half(1, 1, 0.2) == 0.1);
    CHECK(half(700, 700, 0.3) == 73500);
    CHECK(half(100, 100, 0.000226) == 1.13);
    // The same of boxes, whose volumes in nm3 have more digits than a double.
    CHECK(volume_mm3(board(mm_box(0, 0, 0, 0.3, 0.1, 0.1))) == 0.003);
    CHECK(volume_mm3(board(mm_box(0, 0, 0, 700.1, 0.7, 0.1))) == 49.007);
    CHECK(volume_mm3(board(mm_box(0, 0, 0, 343.4625, 100, 10))) == 343462.5);
  }

  TEST_CASE("many cuts at once are the same as one by one") {
    const Solid b = board(mm_box(0, 0, 0, 600, 300, 20));
    std::vector<LatticeBox> dadoes;
    Solid one_by_one = b;
    for (int i = 0; i < 8; ++i) {
      dadoes.push_back(mm_box(40 + 70 * i, 0, 14, 58 + 70 * i, 300, 20));
      one_by_one = cut(one_by_one, dadoes.back());
    }
    const Solid at_once = cut(b, dadoes);
    CHECK(volume_mm3(at_once) == 600.0 * 300 * 20 - 8 * 18 * 300 * 6);
    CHECK(volume_mm3(at_once) == volume_mm3(one_by_one));
    CHECK(surface_mm2(at_once) == surface_mm2(one_by_one));
    CHECK(cell_points(at_once).size() == 10);  // a slab, and nine strips between the dadoes
  }
}
