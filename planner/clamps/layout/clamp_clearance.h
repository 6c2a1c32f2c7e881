// Bars that clear one another: on which side of its line of action each stands and, where that
// alone doesn't do, of which kind a whole round is.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/clamps/layout/stage_clamps.h"

namespace planner::clamps::layout {

struct Clearance {
  std::vector<geometry::Direction> bar_side;           // a clamp each, round after round
  std::vector<std::optional<std::size_t>> in_the_way;  // another that it can't be kept clear of
  int clashes = 0;                                     // pairs
};

// Prefers the nearest edge; where above and below are alike, in turn along the row, so that their
// pull on a panel's two faces evens out. Where bars would still cross, rounds are given another
// kind that the rack has enough of (`stage.owned` and the rounds' kinds change), if that parts more
// of them.
Clearance clear_bars(const ClampProblem& problem, StageAxes& stage);

// Pairs that clash, the sides chosen as above and the kinds as they are. `owned` as in StageAxes.
int bar_clashes(const work::Shop& shop, std::span<const StageAxis* const> rounds,
                std::span<const std::optional<std::size_t>> owned);

}  // namespace planner::clamps::layout
