#include <doctest/doctest.h>

#include "geometry/blocking.h"
#include "geometry/contact.h"
#include "geometry/overlap.h"
#include "scenes/random_parts.h"
#include "twins/nef_twin.h"
#include "twins/polygon_set_twin.h"
#include "twins/ray_twin.h"

using namespace geometry;
using doctest::Approx;

namespace {

// What the drawing says and nothing else: no gap, no sliver.
const Tolerance kStrict{0, 1e-9, 0};

double surface_mm2(const Solid& solid) {
  double sum = 0;
  for (const Facet& facet : facets(solid)) {
    sum += facet.area_mm2;
    double regions = 0;
    for (const Polygon& region : facet.regions) {
      regions += area_mm2(region);
    }
    CHECK(regions == Approx(facet.area_mm2).epsilon(1e-11));
  }
  return sum;
}

void check_against_nef(const scenes::Recipe& recipe) {
  const Solid solid = scenes::make(recipe);
  const twins::NefFigures nef = twins::nef_figures(recipe);
  CHECK(volume_mm3(solid) == Approx(nef.volume_mm3).epsilon(1e-14));
  CHECK(surface_mm2(solid) == Approx(nef.surface_mm2).epsilon(1e-12));
}

void check_contacts(const scenes::Assembly& assembly) {
  const std::vector<Solid> solids = scenes::make(assembly);
  CHECK(find_overlaps(solids, kStrict).empty());
  const std::vector<Contact> found = find_contacts(solids, kStrict);
  for (std::size_t a = 0; a < solids.size(); ++a) {
    for (std::size_t b = a + 1; b < solids.size(); ++b) {
      std::vector<double> ours;
      for (const Contact& contact : found) {
        if (contact.a == a && contact.b == b) {
          ours.push_back(contact.area_mm2);
        }
      }
      const std::vector<double> theirs = twins::contact_areas(assembly[a], assembly[b]);
      REQUIRE(ours.size() == theirs.size());
      for (std::size_t i = 0; i < ours.size(); ++i) {
        CHECK(ours[i] == Approx(theirs[i]).epsilon(1e-13));
      }
    }
  }
}

}  // namespace

TEST_SUITE("tests/twins") {
  // Outside, CGAL: Nef polyhedra
  TEST_CASE("100 random boards with random cuts have the volume and surface of their Nef twins") {
    for (std::uint64_t seed = 1; seed <= 100; ++seed) {
      CAPTURE(seed);
      scenes::Dice dice(seed);
      check_against_nef(scenes::random_board(dice));
    }
  }
  // Outside, CGAL: Nef polyhedra
  TEST_CASE("100 random boards with oblique ends have the volume and surface of their Nef twins") {
    for (std::uint64_t seed = 1001; seed <= 1100; ++seed) {
      CAPTURE(seed);
      scenes::Dice dice(seed);
      check_against_nef(scenes::random_oblique_board(dice));
    }
  }
  // Outside, CGAL: sets of polygons, cross section by cross section
  TEST_CASE("parts let into each other touch on the areas of their cross sections") {
    for (std::uint64_t seed = 2001; seed <= 2100; ++seed) {
      CAPTURE(seed);
      scenes::Dice dice(seed);
      check_contacts(scenes::random_lattice_assembly(dice));
    }
  }
  // Outside, CGAL: sets of polygons, cross section by cross section
  TEST_CASE("parts that share oblique planes touch on the areas of their cross sections") {
    for (std::uint64_t seed = 3001; seed <= 3100; ++seed) {
      CAPTURE(seed);
      scenes::Dice dice(seed);
      check_contacts(scenes::random_assembly(dice));
    }
  }
  // Outside, CGAL: sets of polygons, cross section by cross section
  TEST_CASE("the chest and the fingers touch on the areas of their cross sections") {
    check_contacts(scenes::chest());
    check_contacts(scenes::finger_box());
    check_contacts(scenes::carcass(12));
  }

  TEST_CASE("along the axes boxes stop each other exactly where a line of their grid says so") {
    const std::vector<Direction> ways = {{1, 0, 0},  {-1, 0, 0}, {0, 1, 0},
                                         {0, -1, 0}, {0, 0, 1},  {0, 0, -1}};
    for (std::uint64_t seed = 4001; seed <= 4150; ++seed) {
      CAPTURE(seed);
      scenes::Dice dice(seed);
      const scenes::Assembly assembly = scenes::random_lattice_assembly(dice);
      const Blocking blocking = find_blocking(scenes::make(assembly), ways, kStrict);
      for (std::size_t way = 0; way < ways.size(); ++way) {
        for (std::size_t i = 0; i < assembly.size(); ++i) {
          for (std::size_t j = 0; j < assembly.size(); ++j) {
            if (i != j) {
              CHECK(blocking.blocked(way, i, j) ==
                    twins::grid_hits(assembly[i], assembly[j], ways[way]));
            }
          }
        }
      }
    }
  }

  TEST_CASE("what lines along a motion run into stops it, and nothing else does") {
    int stopped = 0, missed = 0;
    for (std::uint64_t seed = 5001; seed <= 5150; ++seed) {
      CAPTURE(seed);
      scenes::Dice dice(seed);
      const scenes::Assembly assembly = scenes::random_assembly(dice);
      std::vector<Direction> ways;
      for (int i = 0; i < 6; ++i) {
        ways.push_back(unit({static_cast<double>(dice.from_to(-5, 5)) + 0.5,
                             static_cast<double>(dice.from_to(-5, 5)),
                             static_cast<double>(dice.from_to(-5, 5))}));
      }
      const Blocking blocking = find_blocking(scenes::make(assembly), ways, {});
      for (std::size_t way = 0; way < ways.size(); ++way) {
        for (std::size_t i = 0; i < assembly.size(); ++i) {
          for (std::size_t j = 0; j < assembly.size(); ++j) {
            if (i == j) {
              continue;
            }
            const bool blocked = blocking.blocked(way, i, j);
            const int lines = blocked ? 1'000'000 : 2'000;
            const bool hit = twins::ray_hits(assembly[i], assembly[j], ways[way], lines, dice);
            CHECK((blocked || !hit));
            stopped += blocked ? 1 : 0;
            missed += blocked && !hit ? 1 : 0;
          }
        }
      }
    }
    // Lines miss what meets in less than a millionth of the common shadow.
    CHECK(stopped > 2000);
    CHECK(missed < stopped / 500);
  }
}
