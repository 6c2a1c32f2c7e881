#include "cli/pictures/painter.h"

#include <array>
#include <cstdint>
#include <optional>

#include <doctest/doctest.h>

#include "cli/pictures/solids.h"
#include "cli/pictures/stance.h"

using namespace cli;
using namespace cli::pictures;
using geometry::Direction;
using geometry::Point;

namespace {

// The same numbers everywhere.
class Numbers {
 public:
  double between(double lo, double hi) {
    state_ = state_ * 6364136223846793005u + 1442695040888963407u;
    return lo + (hi - lo) * static_cast<double>(state_ >> 40) / static_cast<double>(1u << 24);
  }

 private:
  std::uint64_t state_ = 12345;
};

std::vector<Face> faces_of(const std::vector<geometry::Facet>& facets, int body) {
  std::vector<Face> faces;
  for (const geometry::Facet& facet : facets) {
    faces.push_back({facet.normal, {facet.regions[0].outer}, body});
  }
  return faces;
}

// Whether the line of sight through the spot meets the face, and how near; by the sign of the turn round
// each side, so for convex faces.
std::optional<double> met(const Face& face, const model::View& view, model::Point2 spot) {
  for (std::size_t i = 0; i < face.rings[0].size(); ++i) {
    const model::Point2 a = view.at(face.rings[0][i]);
    const model::Point2 b = view.at(face.rings[0][(i + 1) % face.rings[0].size()]);
    if ((b.u - a.u) * (spot.v - a.v) - (b.v - a.v) * (spot.u - a.u) < 1e-6) {
      return std::nullopt;
    }
  }
  const Point on = Point{} + spot.u * view.right + spot.v * view.up;
  return dot(face.rings[0][0] - on, face.normal) / dot(view.eye, face.normal);
}

// How many spots show another body than the nearest.
int wrong_spots(const std::vector<Face>& all, const model::View& view) {
  std::vector<Face> facing;
  for (const Face& face : all) {
    if (dot(face.normal, view.eye) > 1e-6) {
      facing.push_back(face);
    }
  }
  const std::vector<Face> painted = painted_order(all, view.eye);
  int wrong = 0;
  for (double u = -400; u < 400; u += 7.3) {
    for (double v = -400; v < 400; v += 7.1) {
      int nearest = -1, last = -1;
      double near = -1e300;
      for (const Face& face : facing) {
        if (const auto depth = met(face, view, {u, v}); depth && *depth > near) {
          near = *depth;
          nearest = face.fill;
        }
      }
      for (const Face& face : painted) {
        last = met(face, view, {u, v}) ? face.fill : last;
      }
      wrong += nearest != last ? 1 : 0;
    }
  }
  return wrong;
}

}  // namespace

TEST_SUITE("cli/pictures/painter") {
  TEST_CASE("what is nearer is painted later, though it pierces what it covers") {
    Numbers numbers;
    for (int round = 0; round < 12; ++round) {
      std::vector<Face> all;
      for (int body = 0; body < 9; ++body) {
        const Point middle{numbers.between(-150, 150), numbers.between(-150, 150), numbers.between(-150, 150)};
        const auto box = block(middle, {numbers.between(5, 120) * geometry::kAxis[0],
                                        numbers.between(5, 120) * geometry::kAxis[1],
                                        numbers.between(5, 120) * geometry::kAxis[2]});
        const std::vector<Face> own = faces_of(box, body);
        all.insert(all.end(), own.begin(), own.end());
      }
      for (const Stance& stance : turned_about(stance_on({1, true}))) {
        CHECK(wrong_spots(all, bench_view(stance)) == 0);
      }
    }
  }

  TEST_CASE("boards between two sides, seen from all four sides") {
    std::vector<Face> all;
    const auto add = [&](const Point& lo, const Point& hi, int body) {
      const Direction half = 0.5 * (hi - lo);
      const auto own = faces_of(block(lo + half, {half.x * geometry::kAxis[0], half.y * geometry::kAxis[1],
                                                  half.z * geometry::kAxis[2]}), body);
      all.insert(all.end(), own.begin(), own.end());
    };
    add({-150, -50, -200}, {-132, 50, 200}, 0);
    add({132, -50, -200}, {150, 50, 200}, 1);
    for (int shelf = 0; shelf < 5; ++shelf) {
      const double z = -180 + 80.0 * shelf;
      add({-132, -50, z}, {132, 50, z + 18}, 2 + shelf);
    }
    for (const Stance& stance : turned_about(stance_on({1, true}))) {
      CHECK(wrong_spots(all, bench_view(stance)) == 0);
    }
  }

  TEST_CASE("glue comes after the side it lies on") {
    const Direction x{100, 0, 0}, y{0, 50, 0}, z{0, 0, 10};
    std::vector<Face> all = faces_of(block({0, 0, 0}, {x, y, z}), 0);
    all.push_back({{0, 0, 1}, {{{-20, -20, 10}, {20, -20, 10}, {20, 20, 10}, {-20, 20, 10}}}, 7});
    const std::vector<Face> painted = painted_order(all, bench_view({}).eye);
    REQUIRE(painted.size() == 4);
    std::size_t top = 9, glue = 0;
    for (std::size_t i = 0; i < painted.size(); ++i) {
      top = painted[i].fill == 0 && painted[i].normal.z > 0.5 ? i : top;
      glue = painted[i].fill == 7 ? i : glue;
    }
    CHECK(top < glue);
  }
}
