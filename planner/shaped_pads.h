// Blocks and cauls shaped to faces that aren't square to the clamp.
#pragma once
#include "planner/round_plan.h"

namespace planner {

// What lies between the jaw and the work on a site's line of action: at its low end (0) or high
// end (1). Where the face slopes a shaped block is as thick as the stock at its thin end.
double packed_mm(const RoundPlan& plan, const ClampSite& site, std::size_t end);

// The shape of that block or caul.
Wedge wedge_under(const RoundPlan& plan, const ClampSite& site, std::size_t end);

}  // namespace planner
