// A planar region in space, with holes. Plain data: the exact work is done where it is computed.
#pragma once
#include <vector>

#include "geometry/vector.h"

namespace geometry {

using Ring = std::vector<Point>;  // closed; the first point is not repeated

// `outer` runs counter-clockwise seen from the tip of the region's normal, `holes` clockwise.
struct Polygon {
  Ring outer;
  std::vector<Ring> holes;
};

// Area in mm2, holes taken out; to 1e-12 relative of the exact one for shapes a workshop makes.
double area_mm2(const Polygon& region);

// Of the area of all regions together.
Point centroid(const std::vector<Polygon>& regions);

// How far the region reaches along a direction: least and greatest of p . d over its outer ring,
// mm.
struct Extent {
  double lo = 0, hi = 0;
  double size() const { return hi - lo; }
};
Extent extent_along(const Polygon& region, const Direction& d);
Extent extent_along(const std::vector<Polygon>& regions, const Direction& d);

// True where `p`, taken to lie in the region's plane, is inside it or within `margin_mm` of its rim
// (a negative margin asks for that much distance from the rim).
bool contains(const Polygon& region, const Point& p, double margin_mm);

}  // namespace geometry
