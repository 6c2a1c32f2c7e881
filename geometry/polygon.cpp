#include "geometry/polygon.h"

#include <algorithm>
#include <limits>

namespace geometry {
namespace {

// Twice the ring's vector area; its length is twice the area whichever way the ring is turned.
Direction twice_vector_area(const Ring& ring) {
  Direction sum;
  const Point origin = ring.empty() ? Point{} : ring.front();
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Direction a = ring[i] - origin;
    const Direction b = ring[(i + 1) % ring.size()] - origin;
    const Direction c = cross(a, b);
    sum = {sum.x + c.x, sum.y + c.y, sum.z + c.z};
  }
  return sum;
}

double distance_to_segment(const Point& p, const Point& a, const Point& b) {
  const Direction ab = b - a;
  const double squared = dot(ab, ab);
  const double t = squared > 0 ? std::clamp(dot(p - a, ab) / squared, 0.0, 1.0) : 0.0;
  return length(p - (a + t * ab));
}

double distance_to_rim(const Polygon& region, const Point& p) {
  double nearest = std::numeric_limits<double>::infinity();
  const auto scan = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      nearest = std::min(nearest, distance_to_segment(p, ring[i], ring[(i + 1) % ring.size()]));
    }
  };
  scan(region.outer);
  for (const Ring& hole : region.holes) {
    scan(hole);
  }
  return nearest;
}

// Even-odd rule in the plane of the two axes across the normal's largest component.
bool inside_ring(const Ring& ring, const Point& p, std::size_t u, std::size_t v) {
  bool inside = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const bool crosses = (ring[i][v] > p[v]) != (ring[j][v] > p[v]);
    if (crosses &&
        p[u] < (ring[j][u] - ring[i][u]) * (p[v] - ring[i][v]) / (ring[j][v] - ring[i][v]) +
                   ring[i][u]) {
      inside = !inside;
    }
  }
  return inside;
}

}  // namespace

double area_mm2(const Polygon& region) {
  double area = length(twice_vector_area(region.outer)) / 2;
  for (const Ring& hole : region.holes) {
    area -= length(twice_vector_area(hole)) / 2;
  }
  return area;
}

Point centroid(const std::vector<Polygon>& regions) {
  if (regions.empty()) {
    return {};
  }
  const Point origin = regions.front().outer.front();
  const Direction normal = unit(twice_vector_area(regions.front().outer));
  double twice_area = 0;
  Direction moment;
  const auto add = [&](const Ring& ring) {  // holes run the other way and so count against
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Direction a = ring[i] - origin, b = ring[(i + 1) % ring.size()] - origin;
      const double twice = dot(cross(a, b), normal);
      twice_area += twice;
      moment = moment + twice / 3 * (a + b);
    }
  };
  for (const Polygon& region : regions) {
    add(region.outer);
    for (const Ring& hole : region.holes) {
      add(hole);
    }
  }
  return origin + (1 / twice_area) * moment;
}

Extent extent_along(const Polygon& region, const Direction& d) {
  Extent extent{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  for (const Point& p : region.outer) {
    extent.lo = std::min(extent.lo, dot(p, d));
    extent.hi = std::max(extent.hi, dot(p, d));
  }
  return extent;
}

Extent extent_along(const std::vector<Polygon>& regions, const Direction& d) {
  Extent extent{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  for (const Polygon& region : regions) {
    const Extent one = extent_along(region, d);
    extent.lo = std::min(extent.lo, one.lo);
    extent.hi = std::max(extent.hi, one.hi);
  }
  return extent;
}

bool contains(const Polygon& region, const Point& p, double margin_mm) {
  const Direction normal = twice_vector_area(region.outer);
  const std::size_t drop = std::abs(normal.x) >= std::abs(normal.y)
                               ? (std::abs(normal.x) >= std::abs(normal.z) ? 0 : 2)
                               : (std::abs(normal.y) >= std::abs(normal.z) ? 1 : 2);
  const std::size_t u = (drop + 1) % 3, v = (drop + 2) % 3;
  bool inside = inside_ring(region.outer, p, u, v);
  for (const Ring& hole : region.holes) {
    inside = inside && !inside_ring(hole, p, u, v);
  }
  const double rim = distance_to_rim(region, p);
  return margin_mm >= 0 ? inside || rim <= margin_mm : inside && rim >= -margin_mm;
}

}  // namespace geometry
