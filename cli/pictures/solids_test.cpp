#include "cli/pictures/solids.h"

#include <doctest/doctest.h>

using namespace cli::pictures;
using geometry::Direction;

namespace {

// By the divergence theorem; right only where all facets look outward and their rings run rightly.
double volume_mm3(const std::vector<geometry::Facet>& facets) {
  double sum = 0;
  for (const geometry::Facet& facet : facets) {
    const geometry::Ring& ring = facet.regions[0].outer;
    Direction twice_area;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
      twice_area = twice_area + cross(ring[i] - ring[0], ring[i + 1] - ring[0]);
    }
    CHECK(dot(twice_area, facet.normal) == doctest::Approx(2 * facet.area_mm2));
    sum += facet.offset_mm * facet.area_mm2 / 3;
  }
  return sum;
}

}  // namespace

TEST_SUITE("cli/pictures/solids") {
  TEST_CASE("a block's faces look outward, whatever the order of its sides") {
    const Direction x{5, 0, 0}, y{0, 7, 0}, z{0, 0, 11};
    CHECK(volume_mm3(block({100, 200, 300}, {x, y, z})) == doctest::Approx(8 * 5 * 7 * 11));
    CHECK(volume_mm3(block({100, 200, 300}, {y, x, z})) == doctest::Approx(8 * 5 * 7 * 11));
  }

  TEST_CASE("a shape with a bay has the volume of its area times its thickness") {
    const geometry::Ring bay{{0, 0, 0}, {10, 0, 0}, {10, 30, 0}, {40, 30, 0}, {40, 0, 0},
                             {50, 0, 0}, {50, 45, 0}, {0, 45, 0}};
    CHECK(volume_mm3(extruded(bay, {0, 0, 4})) == doctest::Approx((50 * 45 - 30 * 30) * 8));
  }

  TEST_CASE("a quarter turn about a line") {
    const geometry::Hinge hinge{{10, 0, 0}, {0, 0, 1}};
    const geometry::Point p = turned({20, 0, 5}, hinge, 1.5707963267948966);
    CHECK(p.x == doctest::Approx(10));
    CHECK(p.y == doctest::Approx(10));
    CHECK(p.z == doctest::Approx(5));
    const auto turned_block =
        turned(block({20, 0, 0}, {Direction{5, 0, 0}, Direction{0, 2, 0}, Direction{0, 0, 1}}), hinge, 1);
    CHECK(volume_mm3(turned_block) == doctest::Approx(8 * 5 * 2 * 1));
  }
}
