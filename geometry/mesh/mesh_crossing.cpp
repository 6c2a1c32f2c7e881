#include "geometry/mesh/mesh_crossing.h"

#include <algorithm>
#include <array>

#include <CGAL/box_intersection_d.h>

#include "geometry/exact/exact.h"

namespace geometry {
namespace {

using Triangles = std::vector<Corners3>::const_iterator;
using Box3 = CGAL::Box_intersection_d::Box_with_handle_d<double, 3, Triangles>;

CGAL::Bbox_3 box_of(const MeshSurface& surface, const Corners3& t) {
  const auto box = [&](std::size_t i) {
    const Point& p = surface.points[t[i]];
    return CGAL::Bbox_3(p.x, p.y, p.z, p.x, p.y, p.z);
  };
  return box(0) + box(1) + box(2);
}

bool share_corner(const Corners3& a, const Corners3& b) {
  return std::find_first_of(a.begin(), a.end(), b.begin(), b.end()) != a.end();
}

using Corners = std::array<Point, 3>;

// Whether a plane across `d` parts them, by more than doubles are out at 30 m. Any `d` that does
// will do, however roughly it was worked out.
bool parts(const Direction& d, const Corners& a, const Corners& b) {
  constexpr double kRoundingMm = 1e-9;
  const auto height = [&](const Point& p) { return dot(p - a[0], d); };
  const auto [low_a, high_a] = std::minmax({0.0, height(a[1]), height(a[2])});
  const auto [low_b, high_b] = std::minmax({height(b[0]), height(b[1]), height(b[2])});
  const double apart = std::max(low_b - high_a, low_a - high_b);
  return apart > 0 && apart > kRoundingMm * length(d);
}

// Whether doubles can tell that they don't meet. What is convex and doesn't is parted by a plane
// along a face of one or along an edge of each (S. Gottschalk, M. Lin and D. Manocha, "OBBTree",
// SIGGRAPH 1996); triangles in one plane by one that stands on it along an edge.
bool clearly_apart(const Corners& a, const Corners& b) {
  const auto edge = [](const Corners& t, std::size_t i) { return t[(i + 1) % 3] - t[i]; };
  const Direction across_a = cross(edge(a, 0), edge(a, 1)),
                  across_b = cross(edge(b, 0), edge(b, 1));
  if (parts(across_a, a, b) || parts(across_b, a, b)) {
    return true;
  }
  for (std::size_t i = 0; i < 3; ++i) {
    if (parts(cross(across_a, edge(a, i)), a, b) || parts(cross(across_b, edge(b, i)), a, b)) {
      return true;
    }
    for (std::size_t j = 0; j < 3; ++j) {
      if (parts(cross(edge(a, i), edge(b, j)), a, b)) {
        return true;
      }
    }
  }
  return false;
}

Kernel::Triangle_3 exact(const Corners& t) {
  const auto at = [](const Point& p) {
    return ExactPoint(Rational(p.x), Rational(p.y), Rational(p.z));
  };
  return {at(t[0]), at(t[1]), at(t[2])};
}

bool meet(const MeshSurface& surface, const Corners3& a, const Corners3& b) {
  const auto corners = [&](const Corners3& t) {
    return Corners{surface.points[t[0]], surface.points[t[1]], surface.points[t[2]]};
  };
  if (share_corner(a, b) || clearly_apart(corners(a), corners(b))) {
    return false;
  }
  // Degenerate triangles bound nothing, and do_intersect takes none.
  const Kernel::Triangle_3 one = exact(corners(a)), other = exact(corners(b));
  return !one.is_degenerate() && !other.is_degenerate() && CGAL::do_intersect(one, other);
}

}  // namespace

std::optional<MeshDefect> crossing_of(const MeshSurface& surface) {
  std::vector<Box3> boxes;
  for (auto t = surface.triangles.begin(); t != surface.triangles.end(); ++t) {
    boxes.emplace_back(box_of(surface, *t), t);
  }
  std::optional<std::size_t> first;  // in the drawing's order, whatever order they are met in
  CGAL::box_self_intersection_d(boxes.begin(), boxes.end(), [&](const Box3& a, const Box3& b) {
    const Triangles earlier = std::min(a.handle(), b.handle());
    const auto index = static_cast<std::size_t>(earlier - surface.triangles.begin());
    if ((!first || index < *first) && meet(surface, *a.handle(), *b.handle())) {
      first = index;
    }
  });
  if (!first) {
    return std::nullopt;
  }
  const Corners3& t = surface.triangles[*first];
  const Point& o = surface.points[t[0]];
  return MeshDefect{surface.name, "crosses itself",
                    o + (1.0 / 3) * ((surface.points[t[1]] - o) + (surface.points[t[2]] - o)), 0,
                    "unite its pieces into one solid"};
}

}  // namespace geometry
