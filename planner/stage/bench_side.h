// Which side of the work lies on the bench, when it is turned over, which side of a join comes to the
// other, and which joins want a hand until they are pressed.
#pragma once
#include <span>
#include <vector>

#include "planner/stage/stage_problem.h"
#include "planner/work/standing.h"

namespace planner::stage {

struct BenchSide {
  // By join, what comes to the rest: `moving` of the schedule's join, or its `staying`.
  struct Coming {
    geometry::Direction up;  // an axis direction, while it is made
    bool other = false;      // `staying` comes
    bool wants_hand = false;  // the parts it brings would fall or tip over by themselves
    bool turned_after = false;  // then all of it is turned over: the next part comes from the other side
  };
  std::vector<Coming> joins;
  geometry::Direction up;  // at first
  plan::OrderReason why;
};

// The way the closing unit comes off points up; without one that way in which the fewest joins must
// be brought up from below or want a hand (+z where equal; then -y, which is on its back, +y, +x, -x, -z). Boards folded
// up hang on their tape, and want a hand only where the whole doesn't stand.
//
// The light part moves: what has no clamps on it comes to what has, and from above; the work is turned over
// where that comes from the other side than the last did. Where nothing is clamped yet, what would come from
// below stays, and the rest is set down on it.
BenchSide choose_bench_side(const order::ScheduleProblem& problem, const order::Schedule& schedule,
                            const StageWork& work, std::span<const work::Joint> joints,
                            std::span<const StageDemand> rounds, const work::Standing& standing);

// The parts of the units, ascending.
std::vector<work::PartId> parts_of(const base::UnitSet& units, const StageWork& work);

}  // namespace planner::stage
