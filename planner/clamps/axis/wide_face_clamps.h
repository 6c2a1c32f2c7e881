// Boards laminated flat: a wide face pressed as a plate, with cauls across it.
#pragma once
#include <span>
#include <vector>

#include "planner/clamps/axis/axis_clamps.h"

namespace planner::clamps::axis {

// True where all that is held on the axis is one wide face, or several that lie behind one another.
bool one_wide_face(const AxisClamps& plan);

// Cauls of the thickest stock allowed: as long as the face and side by side all over it, clamps at
// equal spacings along them; or across it at equal spacings, a clamp at each end (one in the middle
// of a narrow face), cut to a camber and lined where they bend by more than a shaving. Or wooden
// jaws on the bare face. The way that takes fewer clamps, each at the same force, no more than it
// takes.
AxisClamps plan_on_face(const AxisQuestion& question, plan::Level wanted);

// Sets up the plates of the plan's wide faces under the cauls of these clamps, for presses to come:
// a plate is dear to set up and cheap to press.
void set_up_plates(AxisClamps& plan, std::span<const ChosenClamp> clamps);

// Puts in the results of the plan's wide faces what a plate gives; leaves the others. A plate that
// isn't set up is, for this press alone. `results`: a line each.
void press_faces(const AxisClamps& plan, std::span<const ChosenClamp> clamps,
                 std::vector<LineResult>& results);

}  // namespace planner::clamps::axis
