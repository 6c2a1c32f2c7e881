// Boards for the tests of this folder.
#pragma once
#include <vector>

#include "geometry/solid.h"

namespace geometry {

inline constexpr double kIn2 = 645.16;  // mm2

inline LatticeBox nm_box(double scale, double x0, double y0, double z0, double x1, double y1,
                         double z1) {
  const auto at = [scale](double c) { return Length::nm(std::llround(c * scale)); };
  return {{at(x0), at(y0), at(z0)}, {at(x1), at(y1), at(z1)}};
}
inline LatticeBox mm_box(double x0, double y0, double z0, double x1, double y1, double z1) {
  return nm_box(1e6, x0, y0, z0, x1, y1, z1);
}
inline LatticeBox inch_box(double x0, double y0, double z0, double x1, double y1, double z1) {
  return nm_box(25.4e6, x0, y0, z0, x1, y1, z1);
}

// A chest of 14 x 9 x 8 in, 3/4 in stock, rabbets 3/8 in deep and 3/4 in wide on the lid, the
// bottom and the ends of front and back: bottom, back, left, right, front, lid.
std::vector<Solid> chest_boards();

}  // namespace geometry
