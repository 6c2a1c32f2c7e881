// Boards that stand at an angle.
#pragma once
#include <array>

#include "geometry/solid.h"

namespace geometry {

// A rotation by `angle_deg` about the line through `about` along x, y or z (0, 1, 2), right-handed.
struct Turn {
  int axis;
  double angle_deg;
  std::array<Length, 3> about;
};

// Turned by a rational rotation within 1e-12 of the angle, so that the result is exact in itself.
Solid turned(const Solid& solid, const Turn& turn);

}  // namespace geometry
