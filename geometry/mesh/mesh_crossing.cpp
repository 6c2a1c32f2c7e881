#include "geometry/mesh/mesh_crossing.h"

#include <algorithm>

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

// Whether a is clearly on one side of b's plane, by more than doubles are out at 30 m.
bool clearly_beside(const MeshSurface& surface, const Corners3& a, const Corners3& b) {
  constexpr double kRoundingMm = 1e-9;
  const Point& o = surface.points[b[0]];
  const Direction n = cross(surface.points[b[1]] - o, surface.points[b[2]] - o);
  bool above = true, below = true;
  for (const std::size_t c : a) {
    const double h = dot(surface.points[c] - o, n);
    above = above && h > kRoundingMm * length(n);
    below = below && h < -kRoundingMm * length(n);
  }
  return above || below;
}

Kernel::Triangle_3 exact(const MeshSurface& surface, const Corners3& t) {
  const auto at = [&](std::size_t i) {
    const Point& p = surface.points[t[i]];
    return ExactPoint(Rational(p.x), Rational(p.y), Rational(p.z));
  };
  return {at(0), at(1), at(2)};
}

bool meet(const MeshSurface& surface, const Corners3& a, const Corners3& b) {
  if (share_corner(a, b) || clearly_beside(surface, a, b) || clearly_beside(surface, b, a)) {
    return false;
  }
  // Degenerate triangles bound nothing, and do_intersect takes none.
  const Kernel::Triangle_3 one = exact(surface, a), other = exact(surface, b);
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
