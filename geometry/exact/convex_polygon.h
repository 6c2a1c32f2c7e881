// A convex polygon in a plane, exact. For geometry/*.cpp only.
#pragma once
#include <optional>
#include <vector>

#include "geometry/exact/exact.h"

namespace geometry {

// A convex polygon in a plane, in the two coordinates other than the plane's axis, as Rect has
// them; counter-clockwise in u, v whichever way the plane looks.
struct ConvexPolygon {
  std::vector<FlatPoint<Rational>> points;
  std::vector<FlatPoint<double>> rounded;  // the same in doubles, to decide at once what is clear
  double u0 = 0, v0 = 0, u1 = 0, v1 = 0;   // bounds, rounded outward
};
ConvexPolygon make_polygon(std::vector<FlatPoint<Rational>> points);  // either way round
ConvexPolygon make_polygon(const Rect& rect);

// The same operations as on Rect (lattice.h).
std::optional<ConvexPolygon> intersection(const ConvexPolygon& a, const ConvexPolygon& b);
bool subtract(ConvexPolygon a, const ConvexPolygon& b, std::vector<ConvexPolygon>& out);
// The hull of points, where it has an area.
std::optional<ConvexPolygon> convex_hull(std::vector<FlatPoint<Rational>> points);
Rational area_nm2(const ConvexPolygon& a);  // of the shadow on the plane of u and v

}  // namespace geometry
