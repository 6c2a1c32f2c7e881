// Bars that press mitres along two axes at once: as hard on the one as on the other.
#pragma once
#include <vector>

#include "planner/clamps/layout/stage_clamps.h"

namespace planner::clamps::layout {

// Draws the clamps of two axes that press mitres between them alike: those of the weaker axis are
// raised as far as their kind and the wood under their pads allow, and what is still missing the
// stronger ones are eased.
void even_out_mitres(const ClampProblem& problem, StageAxes& stage);

// Tells as not held what would slide: mitres pressed along one of their axes alone, or along one more
// than a fifth harder than along the other, that neither a spline nor dowels keep in place. And what
// would open at its outside: bars that stand farther off their rail's centreline than a third of its
// width.
void refuse_sliding(const ClampProblem& problem, std::vector<PressingAxis>& rounds);

}  // namespace planner::clamps::layout
