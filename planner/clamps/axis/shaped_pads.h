// Blocks and cauls shaped to faces that aren't square to the clamp.
#pragma once
#include "planner/base/units.h"
#include "planner/clamps/axis/axis_clamps.h"

namespace planner::clamps::axis {

// What lies between the jaw and the work on a site's line of action: at its low end (0) or high
// end (1). Where the face slopes a shaped block is as thick as the stock at its thin end.
double packed_mm(const AxisClamps& plan, const ClampSite& site, std::size_t end);

// How far a clamp on the site has to open: the work, what lies under both jaws, and half an inch to
// get it on (common practice).
double opening_mm(const AxisClamps& plan, const ClampSite& site);
inline constexpr double kToGetOn_mm = base::kMmPerInch / 2;

// The shape of the block or caul at that end.
plan::Wedge wedge_under(const AxisClamps& plan, const ClampSite& site, std::size_t end);

}  // namespace planner::clamps::axis
