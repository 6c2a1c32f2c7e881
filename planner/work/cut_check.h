// What is wrong with a cut, by its own numbers.
#pragma once
#include "planner/work/part.h"

namespace planner::work {

// What is wrong with the cut for this part: off the board, too deep, faces that are none of its
// own. Lengths in the messages are in `units`.
base::Diagnostics check_cut(const Part& part, const Cut& cut, base::Units units);

}  // namespace planner::work
