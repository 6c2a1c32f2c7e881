// What a straight line passes through.
#pragma once
#include <span>
#include <vector>

#include "geometry/solid.h"

namespace geometry {

// A stretch of a line inside one solid, in mm along the axis.
struct Crossing {
  std::size_t solid = 0;
  double enter_mm = 0, leave_mm = 0;
};

// What the line through `on_line` along `axis` passes through, in order; empty when it misses all.
// A line that only grazes a face or an edge does not pass through it.
std::vector<Crossing> crossings(std::span<const Solid> solids, const Point& on_line,
                                const Direction& axis);

}  // namespace geometry
