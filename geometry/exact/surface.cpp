#include "geometry/exact/surface.h"

namespace geometry {
namespace {

void add_edges(const Rect& r, std::vector<FlatEdge<Nm>>& edges) {
  const FlatPoint<Nm> a{r.u0, r.v0}, b{r.u1, r.v0}, c{r.u1, r.v1}, d{r.u0, r.v1};
  edges.insert(edges.end(), {{a, b}, {b, c}, {c, d}, {d, a}});
}

void add_edges(const ConvexPolygon& p, std::vector<FlatEdge<Rational>>& edges) {
  for (std::size_t i = 0; i < p.points.size(); ++i) {
    edges.push_back({p.points[i], p.points[(i + 1) % p.points.size()]});
  }
}

Point in_space(const LatticePlane& plane, const FlatPoint<Nm>& p) {
  double c[3];
  c[plane.axis] = static_cast<double>(plane.offset) / 1e6;
  c[u_axis(plane.axis)] = static_cast<double>(p.u) / 1e6;
  c[v_axis(plane.axis)] = static_cast<double>(p.v) / 1e6;
  return {c[0], c[1], c[2]};
}

Point in_space(const ExactPlane& plane, const FlatPoint<Rational>& p) {
  return to_mm(lift(plane, p));
}

template <class Plane, class N>
Ring ring_in_space(const Plane& plane, const std::vector<FlatPoint<N>>& flat) {
  Ring ring;
  ring.reserve(flat.size());
  for (const FlatPoint<N>& p : flat) {
    ring.push_back(in_space(plane, p));
  }
  if (plane.sign < 0) {
    std::reverse(ring.begin() + 1, ring.end());
  }
  return ring;
}

template <class N, class Plane, class Piece>
std::vector<Polygon> regions(const Sheet<Plane, Piece>& sheet) {
  std::vector<FlatEdge<N>> edges;
  for (const Piece& piece : sheet.pieces) {
    add_edges(piece, edges);
  }
  std::vector<Polygon> polygons;
  for (const FlatRegion<N>& flat : outline(edges)) {
    Polygon polygon{ring_in_space(sheet.plane, flat.outer), {}};
    for (const auto& hole : flat.holes) {
      polygon.holes.push_back(ring_in_space(sheet.plane, hole));
    }
    polygons.push_back(std::move(polygon));
  }
  return polygons;
}

}  // namespace

Direction unit_normal(const LatticePlane& plane) {
  return plane.sign * kAxis[plane.axis];
}

Direction unit_normal(const ExactPlane& plane) {
  return plane.unit_normal();
}

double offset_mm(const LatticePlane& plane) {
  return plane.sign * static_cast<double>(plane.offset) / 1e6;
}

double offset_mm(const ExactPlane& plane) {
  return plane.sign * to_mm(plane.offset) / plane.stretch();
}

std::vector<Polygon> regions_of(const LatticeSheet& sheet) {
  return regions<Nm>(sheet);
}

std::vector<Polygon> regions_of(const ExactSheet& sheet) {
  return regions<Rational>(sheet);
}

double area_mm2(const LatticeSheet& sheet) {
  Int128 sum = 0;
  for (const Rect& piece : sheet.pieces) {
    sum += area_nm2(piece);
  }
  return static_cast<double>(sum) / 1e12;
}

double area_mm2(const ExactSheet& sheet) {
  Rational sum = 0;
  for (const ConvexPolygon& piece : sheet.pieces) {
    sum += area_nm2(piece);
  }
  return to_double(sum) * sheet.plane.stretch() / 1e12;
}

}  // namespace geometry
