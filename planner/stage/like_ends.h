// Ends that are glued up before the whole: legs with the rails between them, and their like opposite.
#pragma once
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "planner/work/joint.h"

namespace planner::stage {

// The parts of either end, ascending. An end lies flat: three parts or more at one side of the work,
// no deeper than its legs, each across those it is glued to; the other end is its like in number and
// sizes. Of two pairs the one with the shorter rails. Nothing where the whole has four glued joints or
// fewer, which one glues at once. Common practice. `bounds` by part.
using LikeEnds = std::array<std::vector<work::PartId>, 2>;
std::optional<LikeEnds> like_ends(std::span<const work::Joint> joints,
                                  std::span<const geometry::Box> bounds);

}  // namespace planner::stage
