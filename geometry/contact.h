// Where solids touch: planar regions shared by two solids, facing each other.
#pragma once
#include <span>
#include <vector>

#include "geometry/polygon.h"
#include "geometry/solid.h"

namespace geometry {

struct Tolerance {
  double max_gap_mm = 0.15;    // faces farther apart than this do not touch
  double max_angle_deg = 0.1;  // faces tilted more than this against each other do not touch
  double sliver_mm = 0.05;     // overlaps thinner than this are drawing noise, not collisions
};

struct Contact {
  std::size_t a = 0, b = 0;      // solid indices, a < b
  Direction normal;              // outward from a, into b
  double area_mm2 = 0;           // exact, rounded once
  double gap_mm = 0;             // distance between the two planes; 0 where they coincide
  std::vector<Polygon> regions;  // connected pieces, in a's plane, largest first
  Point centroid;
  Direction along;  // the long direction in the plane (the glue line's x); for a square region the
                    // lower axis. First non-zero component positive.
  double length_mm = 0, width_mm = 0;  // extents along `along` and across it
};

// All contacts, pieces on one plane between the same two solids joined into one. Sorted by (a, b),
// then largest area first, then normal. REQUIRES: no two solids overlap by more than sliver_mm
// (overlap.h).
std::vector<Contact> find_contacts(std::span<const Solid> solids, const Tolerance& tolerance);

}  // namespace geometry
