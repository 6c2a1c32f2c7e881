// A convex body with exact corners. For geometry/*.cpp only.
#pragma once
#include <optional>
#include <vector>

#include "geometry/exact/exact.h"

namespace geometry {

// A convex body, closed: planes look outward, loops run counter-clockwise seen from outside.
struct Cell {
  struct Face {
    ExactPlane plane;
    std::vector<int> loop;  // into points
  };
  std::vector<ExactPoint> points;
  std::vector<std::array<double, 3>> rounded;  // the same in doubles, to decide what is clear
  std::vector<Face> faces;

  void add(ExactPoint p);
};

Cell to_cell(const Cuboid& box);

// What lies below and above a plane; empty where that has no volume.
struct Halves {
  std::optional<Cell> below, above;
};
Halves split(Cell cell, const ExactPlane& plane);
// What lies below, in place; false, and the cell of no more use, where that has no volume.
bool clip_below(Cell& cell, const ExactPlane& plane);

Rational volume_nm3(const Cell& cell);

}  // namespace geometry
