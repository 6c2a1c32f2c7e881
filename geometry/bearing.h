// Free outer faces that a jaw, pad or caul can bear on along an axis.
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

}  // namespace geometry
