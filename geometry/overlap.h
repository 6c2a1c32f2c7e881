// Solids that share volume: a drawing error, and by how much.
#pragma once
#include <span>
#include <vector>

#include "geometry/contact.h"
#include "geometry/solid.h"

namespace geometry {

struct Overlap {
  std::size_t a = 0, b = 0;  // a < b
  double volume_mm3 = 0;     // exact, rounded once
  Box where;                 // bounding box of the shared volume
};

// Pairs that share volume in a piece thicker than tolerance.sliver_mm each way, by (a, b).
std::vector<Overlap> find_overlaps(std::span<const Solid> solids, const Tolerance& tolerance);

}  // namespace geometry
