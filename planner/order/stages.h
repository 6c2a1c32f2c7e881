// One go, or the fewest stages: groups that are glued, clamped and released before the next.
#pragma once
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "planner/order/join_bottleneck.h"
#include "planner/order/schedule.h"

namespace planner::order {

// What the joints of a stage ask of the rack.
struct StageClamps {
  std::vector<SnugRound> groups;  // closed_first: indices into the whole problem's joints
  std::vector<RingFinish> rings;  // of the groups, in a stage that closes a ring
  RingFinish open;                // of all groups together, in one that closes none
  std::vector<int> group_of;      // the round that holds it, by position in the asked joints; -1
  bool enough = true;             // the rack has them
};
// Asked once for a set of joints (ascending indices into the whole problem's joints); the answer
// may depend on nothing else.
using ClampDemand = std::function<StageClamps(std::span<const int>)>;

struct StageProblem {
  ScheduleProblem whole;  // in one go, its groups, rings and the joints' rounds left empty
  ClampDemand clamps;
  int least = 1;  // stages; fewer have been tried with all that their clamps ask of one another
  int most = plan::kMostStages;
};

// One stage. Units, joints and the joints' rounds by the whole problem's numbers.
struct StageOrder {
  std::vector<base::UnitSet>
      boards;  // what goes together, by lowest unit; more than one unit: glued before
  std::vector<int> joints;
  std::vector<SnugRound> groups;
  std::vector<int> group_of;  // as joints
  Schedule schedule;          // joints and units of steps and joins renumbered; clocks as `joints`
};

struct StageOrders {
  // proven: no plan has fewer stages, from the problem's least on. bounded: fewer than `fewest` are
  // ruled out. impossible: no number of stages is enough, or none was found.
  plan::Proof status = plan::Proof::impossible;
  std::vector<StageOrder>
      stages;      // in order; of impossible: one go, overrunning, where there is one
  int fewest = 1;  // stages that are needed at least
  // Of impossible: the join that outlasts its glue (or that the rack has not the clamps for)
  // however the work is staged, where there is one.
  std::optional<UnavoidableJoin> unavoidable;
  bool rack_short = false;  // it is the clamps that are missing
  int slack_s = 0;          // least of the stages'

  bool in_time() const { return status != plan::Proof::impossible; }
};

// Limits in stages looked at, in nodes and work for each, in work for all of them, and in plans of as
// many stages to choose from, which
// are met most even first: so many shared by the units, as each takes longer with more of them. The
// same answer on every machine.
struct StageEffort {
  int stages = 3000;
  Effort each{4000, 4e6};
  int plans = 2000;
  double work = 2e7;  // for each count of stages, as WaysApart counts it
};

// The fewest stages, each inside its time and its rack; among those the most slack in steps, then
// the most even (least difference of makespans, in steps), then the first in the job file's order,
// then the shortest. A later stage never needs what an earlier one has shut out. Only stages that
// close a ring of joints have diagonals to check; the closing unit goes on in the last.
StageOrders solve_stages(const StageProblem& problem, const StageEffort& effort = {});

// Other plans of as many stages as the best has, best first and not more than `most`, for whoever
// finds that the best one doesn't do for a reason that the problem doesn't tell.
std::vector<StageOrders> next_best_stages(const StageProblem& problem, const StageOrders& best,
                                          int most);

}  // namespace planner::order
