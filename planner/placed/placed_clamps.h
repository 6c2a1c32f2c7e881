// The user's own clamps, tried: the pressure they give, where it falls short, what mends it.
#pragma once
#include <optional>
#include <span>

#include "planner/plan/plan.h"
#include "planner/work/glue_quantity.h"

namespace planner::placed {

// With the whole work between the jaws. A clamp without a force gives what is planned on for its
// kind; one without a kind or pad has the jaw of a heavy F clamp. Nothing where none are placed.
// REQUIRES: check_placed() (placed_check.h) found no error.
std::optional<plan::PlacedTrial> try_placed(const work::Job& job,
                                            std::span<const geometry::Solid> solids,
                                            std::span<const work::Joint> joints,
                                            const work::GlueInUse& glue);

}  // namespace planner::placed
