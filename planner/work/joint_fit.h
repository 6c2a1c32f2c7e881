// Faces that their own joint's fit presses: the cheeks of a mortise, the walls of a dado.
#pragma once
#include <optional>

#include "planner/work/joint.h"

namespace planner::work {

// True for a face that an opposite one of the same joint holds between itself and it: the cheeks of
// a mortise, the walls of a dado, groove or finger. Their fit presses them; no clamp can press
// both. A bridle's cheeks stand open and are pressed through. Of dovetails it is what doesn't look
// along their way in; once driven home, all.
bool fit_pressed(const Joint& joint, std::size_t face);

// True for the floor of a groove, between its walls: a sheet or panel that lies in it asks nothing there
// (common practice). A tongue's shoulders lie beside the walls.
bool groove_floor(const Joint& joint, std::size_t face);

// The face a joint is held by: its largest; nothing where that one is held by its fit or is a groove's
// floor, the joint asks no more than to come home (joint_kind.h), as one that dowels hold, or other means
// than clamps press it.
std::optional<std::size_t> main_face(const Joint& joint);

}  // namespace planner::work
