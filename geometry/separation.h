// How far two convex bodies are apart, or one in the other's way. For geometry/*.cpp only.
#pragma once
#include "geometry/exact/rounded_cell.h"

namespace geometry {

// True where `mover`, moved any distance along the unit vector `d`, would run deeper than
// `sliver_mm` into `other`: no plane that it can leave along d keeps the two apart.
bool runs_into(const RoundedCell& mover, const RoundedCell& other, const Direction& d,
               double sliver_mm);

// True where the two are in each other by more than `depth_mm` whichever way one were pushed out.
bool interlocked(const RoundedCell& a, const RoundedCell& b, double depth_mm);

// The least of a cell's widths across its own faces.
double thickness_mm(const RoundedCell& cell);

}  // namespace geometry
