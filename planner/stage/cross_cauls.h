// Pairs of cauls across a panel, which keep its boards flush while the bars draw them together.
#pragma once
#include <optional>

#include "planner/clamps/layout/clamp_layout.h"
#include "planner/stage/stage_problem.h"

namespace planner::stage {

// Across a panel thinner than 1 1/4 in and wider than 12 in, of three boards or more in this stage: a
// pair at each end, and one more for each 48 in (common practice), clear of the clamps that are laid
// out. They take what these leave of the rack, the lightest kind that opens far enough, the ends
// first. Nothing where the stage is no such panel, or the rack has no two clamps left.
std::optional<plan::CrossCauls> cross_cauls(const StageWork& work,
                                            std::span<const work::Joint> joints,
                                            std::span<const geometry::Box> bounds,
                                            const work::Shop& shop,
                                            const clamps::layout::ClampLayout& layout);

// With everybody at them, a pair a person.
int cauls_seconds(const plan::CrossCauls& cauls, const work::Shop& shop);

// Their clamps are in use too.
void count_clamps(const plan::CrossCauls& cauls, const work::Shop& shop,
                  clamps::layout::ClampLayout& layout);

}  // namespace planner::stage
