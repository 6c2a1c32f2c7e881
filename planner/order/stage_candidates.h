// The groups of boards that may be glued up first, likely ones first.
#pragma once
#include <vector>

#include "planner/order/merged_boards.h"

namespace planner::order {

// A group to be glued up in a stage.
struct StageCandidate {
  Boards boards;
  base::UnitSet group;  // their units
  int work_s = 0;       // see work_s()
  bool slab = false;    // a row or a layer
};

struct StageCandidates {
  std::vector<StageCandidate> list;
  bool cut_short = false;  // there are too many: rows and layers stand for the rest
};

// Connected groups of two boards or more, never all of them and never with the closing unit; those
// that take nearest to `wanted_work_s` first. Of groups of like boards, by `graph`, one stands for
// all.
StageCandidates stage_candidates(const ScheduleProblem& whole, AssemblyGraph& graph,
                                 const Boards& boards, int wanted_work_s);

// Seconds of spreading and joining the boards, with everybody at work.
int work_s(const ScheduleProblem& whole, const Boards& boards);

}  // namespace planner::order
