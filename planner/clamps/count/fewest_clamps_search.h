// Whether so many clamps do: each looked for in an interval of spots.
#pragma once
#include <optional>

#include "planner/clamps/count/fewest_clamps.h"

namespace planner::clamps::count {

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
