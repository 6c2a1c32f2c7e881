// Clamps that only close shoulders.
#pragma once
#include <span>
#include <vector>

#include "planner/clamps/axis/axis_clamps.h"

namespace planner::clamps::axis {

// For a seated axis: two clamps whose middle is nearest the middle of the shoulders; of like ones
// those on the walls' joints (which are snugged before a lid goes on), then those that press most
// glue, then those in the middles of their tracks. More where some joint has nothing
// else that closes it: one through each of those. The force presses the shoulders to hold, as far
// as the wood under the pads bears it. One where there is room for one only; none without a site.
std::vector<ChosenClamp> seating_clamps(const AxisClamps& plan, std::span<const work::Joint> joints,
                                        const pressure::Work& work);

}  // namespace planner::clamps::axis
