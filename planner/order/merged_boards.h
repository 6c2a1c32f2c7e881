// A stage as a problem of its own: boards glued earlier are one unit each.
#pragma once
#include "planner/order/stages.h"

namespace planner::order {

// Boards in order of their lowest unit. `joints`: those between different boards, ascending.
struct StageQuotient {
  std::vector<base::UnitSet> boards;
  std::vector<int> joints;
  ScheduleProblem problem;
};

// The joints between different boards.
std::vector<int> joints_between(const AssemblyProblem& assembly,
                                std::span<const base::UnitSet> boards);

// REQUIRES: boards disjoint, in order of their lowest unit. `last`: nothing comes after it, so the
// closing unit, if any, is a board of it.
StageQuotient merged_boards(const StageProblem& problem, std::vector<base::UnitSet> boards,
                            const StageClamps& clamps, bool last);

// The schedule of the quotient in the whole problem's units and joints.
StageOrder in_whole(const StageQuotient& quotient, const StageClamps& clamps, Schedule schedule);

}  // namespace planner::order
