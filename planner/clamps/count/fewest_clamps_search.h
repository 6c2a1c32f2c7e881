// Whether so many clamps do: each looked for in an interval of spots.
#pragma once
#include <optional>

#include "planner/clamps/count/fewest_clamps.h"

namespace planner::clamps::count {

// Of its need, that the least pressed place has to get: all, but for rounding of the programme.
inline constexpr double kEnough = 1 - 1e-7;

enum class SearchOutcome { found, none, out_of_effort };

struct IntervalSearch {
  SearchOutcome outcome = SearchOutcome::out_of_effort;
  std::optional<Placement> placement;  // with outcome found
};

// All clamps begin with all spots. An interval stands for the best of its spots, place by place: if
// even those can't press enough, no set from the intervals can, and they are ruled out; else the
// widest is halved. Exact, whatever the spots' order; quick where neighbours in it press alike,
// along a line or round a rim.
IntervalSearch search_intervals(const PlacementQuestion& question, int count,
                                const SearchEffort& effort);

}  // namespace planner::clamps::count
