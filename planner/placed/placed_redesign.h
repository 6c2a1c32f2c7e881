// When no single change mends the user's clamps: the same kind set anew.
#pragma once
#include <optional>

#include "planner/placed/placed_mends.h"

namespace planner::placed {

// The fewest clamps like the axis's first, at equal spacings on each line, with nothing, blocks or
// strips under their jaws, that hold every line and dent nothing; each at the same force, no more
// than it takes. Of as many clamps those with the least under their jaws. Nothing where 16 don't
// do.
std::optional<plan::PlacedMend> placed_redesign(const PlacedAxis& axis);

}  // namespace planner::placed
