// Free outer faces that a jaw, pad or caul can bear on along an axis, and what a straight line of
// action passes through between them.
#pragma once
#include <span>
#include <vector>

#include "geometry/contact.h"
#include "geometry/solid.h"

namespace geometry {

struct BearingFace {
  std::size_t solid = 0;
  Direction normal;              // outward; within tolerance.max_angle_deg of +axis or -axis
  double offset_mm = 0;          // along +axis
  std::vector<Polygon> regions;  // only where nothing stands in front of the face, out to infinity
};

// Both ends of an axis (a unit vector): faces looking along +axis first, outermost first, then
// those along -axis, outermost first; ties by solid index.
std::vector<BearingFace> find_bearing_faces(std::span<const Solid> solids, const Direction& axis,
                                            const Tolerance& tolerance);

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
