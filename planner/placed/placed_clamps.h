// The user's own clamps, tried: the pressure they give, where it falls short, what mends it.
#pragma once
#include <optional>
#include <span>

#include "planner/plan/plan.h"
#include "planner/work/glue_quantity.h"

namespace planner::placed {

// Clamps that can't stand where they are placed, at their place in the file: errors where one
// misses the work, presses on a hollow, has no flat free face for its jaw, isn't long or deep
// enough, or is asked for more force than strong hands give with its kind; a warning where it
// presses no joint. REQUIRES: solids are those of the parts, without errors.
base::Diagnostics check_placed(const work::Job& job, std::span<const geometry::Solid> solids,
                               std::span<const work::Joint> joints, double max_gap_mm);

// With the whole work between the jaws. A clamp without a force gives what is planned on for its
// kind; one without a kind or pad has the jaw of a heavy F clamp. Nothing where none are placed.
// REQUIRES: check_placed() found no error.
std::optional<plan::PlacedTrial> try_placed(const work::Job& job,
                                            std::span<const geometry::Solid> solids,
                                            std::span<const work::Joint> joints,
                                            const work::GlueInUse& glue);

}  // namespace planner::placed
