// End grain that drinks its glue: which faces get a thin coat of it first.
#pragma once
#include "planner/work/glue_quantity.h"

namespace planner::work {

// How many sides of a glued face are sized, about two minutes before the glue itself (common
// practice): end grain that clamps press, of a butt, a rabbet or a mitre across the grain. Never
// what slides into a tight fit, which the coat would swell; never under polyurethane, which wants
// it damp; under epoxy both faces are wetted instead.
int sized_sides(const Joint& joint, std::size_t face, const GlueInUse& glue);

// Some face of the joint is sized.
bool is_sized(const Joint& joint, const GlueInUse& glue);

}  // namespace planner::work
