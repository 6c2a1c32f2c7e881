#include "cli/pictures/layers.h"

#include <doctest/doctest.h>

using namespace cli;
using pictures::Face;
using pictures::Layer;

namespace {

const model::View kAbove{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};

// A level strip; each end at a height of its own.
Face strip(double x0, double x1, double y0, double y1, double z0, double z1, int fill) {
  const geometry::Direction normal = geometry::unit({-(z1 - z0), 0, x1 - x0});
  return {normal, {{{x0, y0, z0}, {x1, y0, z1}, {x1, y1, z1}, {x0, y1, z0}}}, fill, 0};
}

}  // namespace

TEST_SUITE("cli/pictures/layers") {
  TEST_CASE("what lies higher is painted later, in whatever order it comes") {
    for (const bool swapped : {false, true}) {
      std::vector<Face> faces{strip(0, 10, 0, 10, 0, 0, 1), strip(5, 15, 5, 15, 3, 3, 2)};
      if (swapped) {
        std::swap(faces[0], faces[1]);
      }
      const std::vector<Layer> layers = pictures::painted_layers(faces, kAbove, 0.1);
      REQUIRE(layers.size() == 2);
      CHECK(layers[0].fill == 1);
      CHECK(layers[1].fill == 2);
      CHECK_FALSE(layers[0].cut);
    }
  }

  TEST_CASE("faces of one filling that don't meet on the sheet are one layer, those that do are two") {
    const auto layers_beside = [](double from) {
      const Face first = strip(0, 10, 0, 10, 0, 0, 1), second = strip(from, 20, 0, 10, 3, 3, 1);
      return pictures::painted_layers({first, second}, kAbove, 0.1).size();
    };
    CHECK(layers_beside(10) == 1);
    CHECK(layers_beside(9) == 2);
  }

  TEST_CASE("in one plane they keep their order: glue comes after its board") {
    const std::vector<Layer> layers =
        pictures::painted_layers({strip(0, 10, 0, 10, 0, 0, 2), strip(0, 10, 0, 10, 0, 0, 1)}, kAbove, 0.1);
    REQUIRE(layers.size() == 2);
    CHECK(layers[0].fill == 2);
  }

  TEST_CASE("what looks away or stands on edge is left out") {
    Face away = strip(0, 10, 0, 10, 0, 0, 1);
    away.normal = {0, 0, -1};
    CHECK(pictures::painted_layers({away}, kAbove, 0.1).empty());
  }

  TEST_CASE("faces that pass through one another: the one that stands out farther is painted later") {
    const std::vector<Layer> layers =
        pictures::painted_layers({strip(0, 10, 0, 10, -1, 5, 1), strip(0, 10, 0, 10, 0, 0, 2)}, kAbove, 0.1);
    REQUIRE(layers.size() == 2);
    CHECK(layers[1].fill == 1);
    CHECK_FALSE(layers[1].cut);
  }

  TEST_CASE("faces before one another in a circle are cut") {
    // Each rises towards its far end, which lies on the next one's low end.
    const auto turned = [](double angle_x, double angle_y, int fill) {
      const geometry::Direction along{angle_x, angle_y, 0}, aside{-angle_y, angle_x, 0};
      const geometry::Point from =
          geometry::Point{} + (-6.0) * along + (-3.0) * aside + (-2.0) * geometry::Direction{0, 0, 1};
      const geometry::Point to = geometry::Point{} + 6.0 * along + (-3.0) * aside + 2.0 * geometry::Direction{0, 0, 1};
      const geometry::Direction wide = 1.5 * aside;
      return Face{geometry::unit(cross(to - from, wide)), {{from, to, to + wide, from + wide}}, fill, 0};
    };
    const double s = 0.8660254037844386;
    const std::vector<Layer> layers =
        pictures::painted_layers({turned(1, 0, 1), turned(-0.5, s, 2), turned(-0.5, -s, 3)}, kAbove, 0.1);
    std::size_t pieces = 0, cut = 0;
    for (const Layer& layer : layers) {
      pieces += layer.faces.size();
      cut += layer.cut ? layer.faces.size() : 0;
    }
    CHECK(pieces > 3);
    CHECK(cut == pieces);
  }
}
