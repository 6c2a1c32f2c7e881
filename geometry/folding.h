// Folding one solid up against another about a line, as boards laid open end to end are folded
// round their corner.
#pragma once
#include "geometry/contact.h"
#include "geometry/solid.h"

namespace geometry {

struct Hinge {
  Point at;         // on its line
  Direction along;  // unit vector; turns by positive angles are right-handed about it
};

Point turned_about(const Hinge& hinge, const Point& p, double angle_rad);
Direction turned_about(const Hinge& hinge, const Direction& d, double angle_rad);

// True where it is certain that `mover`, turned about the hinge by `angle_deg` and then drawn off
// straight along `off` (a unit vector, where it points after the turn) to any distance, never runs
// deeper than tolerance.sliver_mm into `other`. False where it does, or where that could not be
// shown: each stretch of the turn is enclosed in the hull of its ends and of its arcs' tangents,
// and stretches that no plane parts from `other` are halved down to a degree. REQUIRES: 0 < angle
// <= 180.
bool surely_unfolds(const Solid& mover, const Solid& other, const Hinge& hinge, double angle_deg,
                    const Direction& off, const Tolerance& tolerance);

}  // namespace geometry
