// A plan built by hand for the tests of the sheets: the bee club's hive-tool chest, 14 x 9 x 8 in
// of 3/4 in cherry, rabbets all round. Its numbers are plausible, not planned.
#pragma once
#include "planner/plan/plan.h"

namespace cli::text::sample {

planner::plan::Plan chest();        // in inches, one go, enough clamps
planner::plan::Plan short_chest();  // the same with too few clamps: it doesn't work
planner::plan::Plan
staged_chest();  // bottom and walls first, then the top; two people; mm, UK words

}  // namespace cli::text::sample
