#include "geometry/polygon.h"

#include <doctest/doctest.h>

using namespace geometry;

TEST_SUITE("geometry/polygon") {
  // A lid's rim, 14 x 9 in outside and 12.5 x 7.5 in inside: 32.25 in2 by hand (docs/method.md).
  const Polygon kRim{{{0, 0, 5}, {14, 0, 5}, {14, 9, 5}, {0, 9, 5}},
                     {{{0.75, 0.75, 5}, {0.75, 8.25, 5}, {13.25, 8.25, 5}, {13.25, 0.75, 5}}}};

  // Outside, closed form: a rectangle less a rectangle
  TEST_CASE("a rim's area is the outside less the inside") {
    CHECK(area_mm2(kRim) == doctest::Approx(32.25).epsilon(1e-12));
  }
  TEST_CASE("a point over the hole is not on the rim, one over the wall is") {
    CHECK_FALSE(contains(kRim, {7, 4, 5}, 0));
    CHECK(contains(kRim, {0.4, 4, 5}, 0));
    CHECK(contains(kRim, {0.4, 4, 5}, -0.3));
    CHECK_FALSE(contains(kRim, {0.4, 4, 5}, -0.5));
    CHECK(contains(kRim, {-0.1, 4, 5}, 0.2));
  }
  TEST_CASE("a region's reach along a diagonal is that of its corners") {
    const Extent e = extent_along(kRim, unit({1, 1, 0}));
    CHECK(e.size() == doctest::Approx(23 / std::sqrt(2.0)));
  }
}
