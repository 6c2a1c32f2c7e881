// A convex cell in doubles, for questions that have a tolerance anyway: what stops what, what a
// line passes through.
#pragma once
#include <vector>

#include "geometry/vector.h"

namespace geometry {

struct RoundedCell {
  struct Face {
    Direction normal;  // outward
    double offset_mm;
  };
  std::vector<Point> corners;
  std::vector<Face> faces;
  std::vector<Direction> edges;  // each direction once, either sense
  Box box;
  double volume_mm3 = 0;
  Point centroid;
};

}  // namespace geometry
