// In which unit a mesh was drawn, where the job doesn't say.
#pragma once
#include <span>

#include "geometry/vector.h"

namespace planner::files {

struct DrawnUnit {
  const char *name, *plural;  // as `units` of [mesh] has it, and in full
  geometry::Length length;
};

struct UnitGuess {
  const DrawnUnit* likely = nullptr;
  const DrawnUnit* other = nullptr;  // the next likely
  bool is_clear = false;             // no other is nearly as likely
  double longest = 0;                // of the parts, in the file's units
};

// Inches, millimeters or meters, from the extents of the parts' boxes. REQUIRES: one part or more.
UnitGuess guessed_unit(std::span<const geometry::Direction> sizes);

}  // namespace planner::files
