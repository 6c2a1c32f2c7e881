// Clamps as things that take up room: bars, jaws and heads that must clear one another.
#pragma once
#include <array>
#include <span>
#include <vector>

#include "geometry/vector.h"
#include "planner/plan/plan.h"
#include "planner/tables/clamp.h"

namespace planner::clamps::bodies {

// Where a clamp stands and which one it is.
struct StandingClamp {
  const tables::ClampKind* kind = nullptr;
  geometry::Direction axis;
  geometry::Point low;    // where its line of action leaves the pad, on the low side of the axis
  double between_mm = 0;  // from there to the other pad's face
  double throat_mm = 0;   // of this clamp
  double bar_mm = 0;      // it opens so far at most: what isn't used stands out behind the head
  std::array<geometry::Direction, 4> sides{};  // that its bar may be on, the first preferred
  int side_count = 0;
};

// As planned, its bar as long as the opening: what sticks out behind the head can hang over the
// bench's edge. No sides.
StandingClamp standing_clamp(const plan::PlannedClamp& clamp, const work::Shop& shop);

// The bar beside the line of action, the fixed jaw at the low end, the head with its screw at the
// high one. Axis-parallel boxes around them.
std::array<geometry::Box, 3> body_of(const StandingClamp& clamp, const geometry::Direction& side);

// Nearer than a finger's room (3 mm).
bool bodies_clash(const std::array<geometry::Box, 3>& a, const std::array<geometry::Box, 3>& b);

struct BarSides {
  std::vector<std::size_t> side;  // a clamp each: index into its sides
  std::vector<std::size_t>
      in_the_way;   // a clamp each: another that it still clashes with, or itself
  int clashes = 0;  // pairs
};

// A side for each bar, so that the fewest pairs clash: each in turn takes the side with fewest, the
// earlier of like ones, until none changes. Best found.
BarSides choose_bar_sides(std::span<const StandingClamp> clamps);

}  // namespace planner::clamps::bodies
