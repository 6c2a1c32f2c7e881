// Fewer clamps on one line: spots in order along it, looked for in intervals.
#pragma once
#include <optional>

#include "planner/fewest_clamps.h"

namespace planner {

enum class LineOutcome { found, none, out_of_effort };

struct LineSearch {
  LineOutcome outcome = LineOutcome::out_of_effort;
  std::optional<Placement> placement;  // with outcome found
};

// Whether `count` clamps do, each somewhere in an interval of spots: all begin with the whole line;
// an interval stands for the best of its spots place by place, so if even those can't press enough
// the intervals are ruled out, and else the widest is halved. Exact; `most` counts the programmes
// solved. REQUIRES: spots are numbered in order along the line; those that exclude one another are
// near one another (what excludes a spot excludes all between).
LineSearch search_line(const PlacementQuestion& question, int count, int most);

}  // namespace planner
