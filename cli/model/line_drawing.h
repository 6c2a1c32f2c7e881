// Parts as a line drawing: seen along a direction, hidden lines taken out.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/plan/plan.h"  // geometry::Facet

namespace cli::model {

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
// The same for any direction, a unit vector: along an axis as above, else from whichever of its
// ends is nearer the front, with what is up in the work as far up as it goes.
View view_along(const geometry::Direction& direction);

// How far a surface reaches along a direction.
geometry::Extent reach_of(std::span<const geometry::Facet> facets, const geometry::Direction& d);

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

// A facet as the viewer sees it: flat rings, and how near its plane is at a point of the picture.
struct Cover {
  std::size_t body = 0;
  std::vector<std::vector<Point2>> rings;
  double u0 = 1e300, u1 = -1e300, v0 = 1e300, v1 = -1e300;  // box of the rings
  double nearness0 = 0, per_u = 0, per_v = 0;  // nearness = nearness0 + per_u * u + per_v * v
  double nearness(Point2 p) const { return nearness0 + per_u * p.u + per_v * p.v; }
};

// Bodies that hide the lines behind them. REQUIRES: they do not overlap.
class Scene {
 public:
  Scene(std::span<const Body> bodies, const View& view);

  // What of the lines no facet in front of them covers. A line on a facet is not covered by it. In
  // the order of the lines, pieces from a to b. `without` is the index of a body that hides
  // nothing.
  std::vector<Segment2> visible(std::span<const Segment3> lines,
                                std::optional<std::size_t> without = std::nullopt) const;

 private:
  std::size_t slab_of(double v) const;
  std::vector<Cover> covers_;
  // The picture in slabs across, each with the covers that reach into it: a short line asks those.
  std::vector<std::vector<std::size_t>> slabs_;
  double low_ = 0, slab_mm_ = 1;
  View view_;
};

}  // namespace cli::model
