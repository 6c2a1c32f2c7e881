#include "cli/model/line_drawing.h"

#include <cmath>

#include <doctest/doctest.h>

using namespace cli;
using namespace cli::model;
using geometry::Facet;
using geometry::Length;

namespace {

std::vector<Facet> cube(int x, int y, int z, int size) {
  const auto mm = [](int n) { return Length::whole_mm(n); };
  return facets(
      geometry::board({{mm(x), mm(y), mm(z)}, {mm(x + size), mm(y + size), mm(z + size)}}));
}

double total_length(const std::vector<model::Segment2>& pieces) {
  double sum = 0;
  for (const model::Segment2& s : pieces) {
    sum += std::hypot(s.b.u - s.a.u, s.b.v - s.a.v);
  }
  return sum;
}

// All edges of all bodies, hidden parts out.
double drawn_mm(const std::vector<model::Body>& bodies, const model::View& view) {
  double sum = 0;
  for (const model::Body& body : bodies) {
    sum += total_length(model::Scene(bodies, view).visible(edges_of(body, view)));
  }
  return sum;
}

// Every edge of a cube looks sqrt(2/3) as long in an isometric view.
const double kEdge = 100 * std::sqrt(2.0 / 3.0);

}  // namespace

TEST_SUITE("cli/model/line_drawing") {
  // Outside, closed form: an isometric view's edges, root two thirds as long
  TEST_CASE("of a cube nine edges are seen, three are behind it") {
    const std::vector<Facet> one = cube(0, 0, 0, 100);
    const model::Body body{one, {}};
    CHECK(edges_of(body, model::isometric_view()).size() == 9);
    CHECK(drawn_mm({body}, model::isometric_view()) == doctest::Approx(9 * kEdge));
  }

  TEST_CASE("a board straight behind another is not drawn") {
    const std::vector<Facet> front = cube(0, 0, 0, 100), back = cube(20, 200, 20, 50);
    const std::vector<model::Body> bodies{{front, {}}, {back, {}}};
    CHECK(model::Scene(bodies, model::axis_view(1))
              .visible(edges_of(bodies[1], model::axis_view(1)))
              .empty());
    // From above both are seen whole: two squares.
    CHECK(drawn_mm(bodies, model::axis_view(2)) == doctest::Approx(400 + 200));
  }

  TEST_CASE("a board half behind another is drawn by half") {
    const std::vector<Facet> front = cube(0, 0, 0, 100), back = cube(70, 200, 20, 60);
    const std::vector<model::Body> bodies{{front, {}}, {back, {}}};
    const auto seen =
        model::Scene(bodies, model::axis_view(1)).visible(edges_of(bodies[1], model::axis_view(1)));
    // Of the square 70..130 the right half: 30 + 60 + 30, and its left edge is hidden.
    CHECK(total_length(seen) == doctest::Approx(120));
  }

  TEST_CASE("a box seen through a hole in the board before it") {
    const auto mm = [](int n) { return Length::whole_mm(n); };
    const geometry::Solid frame =
        cut(geometry::board({{mm(0), mm(0), mm(0)}, {mm(100), mm(10), mm(100)}}),
            geometry::LatticeBox{{mm(20), mm(-1), mm(20)}, {mm(80), mm(11), mm(80)}});
    const std::vector<Facet> front = facets(frame), back = cube(40, 50, 40, 20);
    const std::vector<model::Body> bodies{{front, {}}, {back, {}}};
    CHECK(drawn_mm(bodies, model::axis_view(1)) == doctest::Approx(400 + 240 + 80));
  }

  TEST_CASE("an offset moves a part out of the others' way") {
    const std::vector<Facet> front = cube(0, 0, 0, 100), back = cube(0, 200, 0, 100);
    const std::vector<model::Body> bodies{{front, {}}, {back, {0, 0, 500}}};
    CHECK(drawn_mm(bodies, model::axis_view(1)) == doctest::Approx(800));
  }

  TEST_CASE("hatching covers a face and no more") {
    const std::vector<Facet> faces = cube(0, 0, 0, 100);
    for (const Facet& face : faces) {
      const geometry::Direction along =
          std::abs(face.normal.z) > 0.5 ? geometry::kAxis[0] : geometry::kAxis[2];
      const auto lines = model::hatching_of(face.regions, face.normal, along, 2);
      double length = 0;
      for (const model::Segment3& line : lines) {
        length += geometry::length(line.b - line.a);
        for (const geometry::Point& p : {line.a, line.b}) {
          CHECK(dot(p, face.normal) == doctest::Approx(face.offset_mm));
        }
      }
      CHECK(length * 2 == doctest::Approx(100 * 100).epsilon(0.02));  // length x spacing = area
    }
  }

  TEST_CASE("hatching on a face turned away is covered by its own part") {
    const std::vector<Facet> faces = cube(0, 0, 0, 100);
    const std::vector<model::Body> bodies{{faces, {}}};
    for (const Facet& face : faces) {
      const geometry::Direction along =
          std::abs(face.normal.z) > 0.5 ? geometry::kAxis[0] : geometry::kAxis[2];
      const auto seen = model::Scene(bodies, model::isometric_view())
                            .visible(model::hatching_of(face.regions, face.normal, along, 5));
      CHECK(seen.empty() == (dot(face.normal, model::isometric_view().eye) < 0));
    }
  }

  TEST_CASE("looking along a line shows it as a point, from the front, with up upwards") {
    for (const geometry::Direction& along :
         {geometry::Direction{0.6, 0.8, 0}, geometry::Direction{-0.6, -0.8, 0},
          geometry::Direction{0.36, 0.48, 0.8}, geometry::Direction{0.96, 0, 0.28}}) {
      const model::View view = model::view_along(along);
      CHECK(std::abs(dot(view.right, along)) < 1e-12);
      CHECK(std::abs(dot(view.up, along)) < 1e-12);
      CHECK(dot(cross(view.right, view.up), view.eye) == doctest::Approx(1));  // right-handed
      CHECK(view.eye.y <= 0);
      CHECK(view.up.z > 0);
    }
    CHECK(dot(model::view_along({0, 0, -1}).right, geometry::kAxis[0]) == doctest::Approx(1));
  }
}
