// What a round's clamps come to on each of its glue faces.
#pragma once
#include <span>
#include <vector>

#include "planner/clamps/axis/axis_clamps.h"

namespace planner::clamps::axis {

// Full: the least pressure, less the model's margin, reaches the full pressure asked. Hold: the
// same with weak hands reaches what holds.
plan::Level level_of(const pressure::LineProfile& planned, const pressure::LineProfile& weak,
                     double hold_MPa, double full_MPa);

// Every glued face on the round's axis, by (joint, face). Held faces from the pressure model;
// closed ones (level seat) with the mean that the clamps passing through them give, without a
// profile. `clamps`: those of the plan's that are there.
std::vector<plan::LinePressure> line_pressures(const AxisClamps& plan,
                                               std::span<const ChosenClamp> clamps);

// Tells which of those faces are held already while the clamps are only snug. `snug`: the same
// clamps in the same order, with what they press then.
void tell_snug(const AxisClamps& plan, std::span<const ChosenClamp> clamps,
               std::span<const ChosenClamp> snug, std::vector<plan::LinePressure>& lines);

}  // namespace planner::clamps::axis
