// How clamps fare on one axis, wherever they come from.
#pragma once
#include <vector>

#include "planner/clamps/axis/axis_clamps.h"
#include "planner/pressure/racking.h"

namespace planner::clamps::axis {

// Everything that is asked of clamps on an axis.
struct AxisState {
  double share = 0;  // of what holds that the worst place of the worst held line gets
  double crush = 0;  // of what the wood bears that the hardest pad presses
  double off = 0;    // greatest resultant beside a line's middle, in sixths of its width
  bool good() const;
};
AxisState state_of(const AxisClamps& plan);

// Clamps of the plan as a line feels them: a force each, 0 for one that doesn't press it, and how
// far beside the line's middle it acts.
std::vector<pressure::OffsetForce> forces_beside(const AxisClamps& plan,
                                                 std::span<const ChosenClamp> clamps,
                                                 std::size_t line);
geometry::Direction across_of(const pressure::GlueLine& line, const geometry::Direction& axis);

// A line each: where the resultant of the clamps that press a line lies across it, from its
// middle; 0 with none.
std::vector<double> offsets_mm(const AxisClamps& plan, std::span<const ChosenClamp> clamps);

}  // namespace planner::clamps::axis
