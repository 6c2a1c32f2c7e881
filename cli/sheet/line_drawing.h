// Parts as a line drawing: seen along a direction, hidden lines taken out.
#pragma once
#include <span>
#include <vector>

#include "planner/plan.h"  // geometry::Facet

namespace cli {

struct Point2 {
  double u = 0, v = 0;  // to the right and up, mm
};

// A parallel view. `eye` points from the work to the viewer; right, up and eye are unit vectors at
// right angles, right-handed.
struct View {
  geometry::Direction right, up, eye;
  Point2 at(const geometry::Point& p) const { return {dot(p, right), dot(p, up)}; }
  double nearness(const geometry::Point& p) const { return dot(p, eye); }
};
View isometric_view();  // from the front, right and above
// The work seen straight along an axis with the front-left-bottom corner at the lower left: x from
// the right, y from the front, z from above.
View axis_view(int axis);

// A body made of facets, moved from its place by `offset`.
struct Body {
  std::span<const geometry::Facet> facets;
  geometry::Direction offset;
};

struct Segment3 {
  geometry::Point a, b;
};
struct Segment2 {
  Point2 a, b;
};

// The edges of a body's facets that face the viewer, each once, moved to its place.
std::vector<Segment3> edges_of(const Body& body, const View& view);

// Parallel lines over a region, `spacing_mm` apart, at 45 degrees to `along` in its plane.
std::vector<Segment3> hatching_of(const std::vector<geometry::Polygon>& regions,
                                  const geometry::Direction& normal,
                                  const geometry::Direction& along, double spacing_mm);

// What of the lines no facet in front of them covers. A line on a facet is not covered by it.
// Bodies must not overlap. In the order of the lines, pieces from a to b.
std::vector<Segment2> visible(std::span<const Segment3> lines, std::span<const Body> bodies,
                              const View& view);

}  // namespace cli
