// Clamps that only close shoulders.
#pragma once
#include <span>
#include <vector>

#include "planner/clamps/axis/axis_clamps.h"

namespace planner::clamps::axis {

// For joints that come home: through each one clamp, in the middle of its shoulder or floor; two, near
// its ends, where that is longer than kOneClamp_mm, of a tenon's or dowels' rail kOneOnRail_mm, of
// fingers never, whose blocks are as high as the corner. For shoulders of joints that are held
// elsewhere: two clamps whose middle is nearest the middle of the shoulders; of like ones
// those on the walls' joints (which are snugged before a lid goes on), then those that press most
// glue, then those in the middles of their tracks. The force presses the shoulders to hold, as far
// as the wood under the pads bears it. One where there is room for one only; none without a site.
inline constexpr double kOneClamp_mm = 101.6, kOneOnRail_mm = 152.4;  // 4 and 6 in; common practice
std::vector<ChosenClamp> seating_clamps(const AxisClamps& plan, std::span<const work::Joint> joints,
                                        const pressure::Work& work);

}  // namespace planner::clamps::axis
