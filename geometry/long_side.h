// Which way a planar region is long. For geometry/*.cpp only.
#pragma once
#include <vector>

#include "geometry/polygon.h"

namespace geometry {

struct LongSide {
  Direction along;  // first non-zero component positive
  double length_mm = 0, width_mm = 0;
};

// Of the smallest rectangle around the regions, the long side; for a square the side nearest a
// lower axis. In a plane across an axis whose regions have a level edge, sides stay on the axes.
LongSide long_side(const std::vector<Polygon>& regions, const Direction& normal);

}  // namespace geometry
