// Assemblies of any size for twins and benches, described so that each can build them its own way.
#pragma once
#include <string>
#include <vector>

#include "geometry/turn.h"

namespace scenes {

// How a part is made: a board, what is kept of it, what is taken out, how it is turned at last.
struct Recipe {
  geometry::LatticeBox board;
  std::vector<geometry::HalfSpace> keep;
  std::vector<geometry::LatticeBox> cuts;
  std::vector<geometry::Turn> turns;
  std::vector<std::vector<geometry::HalfSpace>> prisms = {};  // taken out too
};

using Assembly = std::vector<Recipe>;

geometry::Solid make(const Recipe& recipe);
std::vector<geometry::Solid> make(const Assembly& assembly);

// A chest of 14 x 9 x 8 in, 3/4 in stock, rabbeted all round: 6 parts.
Assembly chest();
// A square case of `parts` parts: two sides, top and bottom rabbeted in, dividers dadoed into top
// and bottom, shelves dadoed into sides and dividers, so that the cells are all alike.
Assembly carcass(int parts);
// Four boards 11 fingers deep at each corner.
Assembly finger_box();
// A mitred frame of `sides` rails, 3 or more, each turned into its place.
Assembly polygon_frame(int sides);
// The same assembly turned as a whole, so that nothing lies along an axis.
Assembly turned(Assembly assembly, double degrees);

}  // namespace scenes
