// A stage as a problem of its own: boards glued earlier are one unit each.
#pragma once
#include "planner/order/boards.h"
#include "planner/order/stages.h"

namespace planner::order {

struct StageQuotient {
  Boards boards;
  std::vector<int> joints;  // between different boards, ascending
  ScheduleProblem problem;
};

// `last`: nothing comes after it, so the closing unit, if any, is a board of it.
StageQuotient merged_boards(const StageProblem& problem, Boards boards, const StageClamps& clamps,
                            bool last);

// The schedule of the quotient in the whole problem's units and joints.
StageOrder in_whole(const StageQuotient& quotient, const StageClamps& clamps, Schedule schedule);

}  // namespace planner::order
