// Which side of the work lies on the bench, and which joins want a hand until they are pressed.
#pragma once
#include <string>
#include <vector>

#include "planner/stage/stage_problem.h"
#include "planner/work/standing.h"

namespace planner::stage {

struct BenchSide {
  geometry::Direction up;  // an axis direction
  std::vector<bool>
      wants_hand;   // by join: the parts it brings would fall or tip over by themselves
  std::string why;  // lower case, no full stop
};

// The way the closing unit comes off points up; without one that way in which the fewest joins must
// be brought up from below or want a hand (+z where equal; then +y, +x, -x, -y, -z). Boards folded
// up hang on their tape, and want a hand only where the whole doesn't stand.
BenchSide choose_bench_side(const order::ScheduleProblem& problem, const order::Schedule& schedule,
                            const StageWork& work, const work::Standing& standing);

// The join's moving group comes up from below. Then it stays, and the rest is set down on it.
bool comes_from_below(const order::ScheduleProblem& problem, const order::PlannedJoin& join,
                      const geometry::Direction& up);

// The parts of the units, ascending.
std::vector<work::PartId> parts_of(const base::UnitSet& units, const StageWork& work);

}  // namespace planner::stage
