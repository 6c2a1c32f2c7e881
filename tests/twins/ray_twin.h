// What stops what, asked line by line: along each, either some of the mover has some of the other
// ahead of it or not.
#pragma once
#include "scenes/random_parts.h"

namespace twins {

// True where one of `rays` lines along d, drawn from `dice` over the common shadow, says so through
// more than 0.06 mm of both, and still does a little to every side: no sliver.
// REQUIRES: the recipes have no turns; d is a unit vector.
bool ray_hits(const scenes::Recipe& mover, const scenes::Recipe& other,
              const geometry::Direction& d, int rays, scenes::Dice& dice);

// The same along an axis, complete for boxes: a line through the middle of every field of the grid
// of both parts' sides. No tolerance. REQUIRES: neither recipe has oblique planes.
bool grid_hits(const scenes::Recipe& mover, const scenes::Recipe& other,
               const geometry::Direction& axis);

}  // namespace twins
