// Corner clamps: they keep a frame's or box's corners square while others press, and press nothing.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/clamps/layout/clamp_layout.h"
#include "planner/work/square.h"

namespace planner::clamps::layout {

struct CornerClamps {
  std::vector<plan::CornerClamp> set;             // in the ring's order
  std::optional<plan::CornerClampsNote> why_not;  // of a rack that has some, and none is set
};

// The rack's corner clamps on the ring's corners: all four, else two that lie across from one
// another, where they take parts so thick and their inside stays open to take them off by; as near
// to the open end as that goes. One stays on where no jaw, caul, bar or strap of the layout wants
// its place.
CornerClamps corner_clamps(const ClampProblem& problem, const work::Ring& ring,
                           const ClampLayout& layout);

}  // namespace planner::clamps::layout
