// Filled faces from the farthest to the nearest, so that what is painted later covers rightly.
#pragma once
#include <vector>

#include "cli/model/line_drawing.h"

namespace cli::pictures {

// A face to fill: rings in space, the outer ones running counter-clockwise seen from the tip of the
// normal, holes clockwise. `fill` is any number that tells fillings apart.
struct Face {
  geometry::Direction normal;  // outward
  std::vector<geometry::Ring> rings;
  int fill = 0;
  std::size_t body = 0;  // whose it is
};

// The faces that look at the viewer, cut where they must be, the farthest first. A plane that is in
// one of them parts what lies before it from what lies behind, which holds for bodies that overlap
// too (binary space partition: Fuchs, Kedem and Naylor, 1980). Faces in one plane keep their order:
// glue on a board's side comes after that side.
std::vector<Face> painted_order(std::vector<Face> faces, const geometry::Direction& eye);

}  // namespace cli::pictures
