// The join that no order and no staging avoids: whatever is done before it, its own joints must all
// be spread before it and are open together.
#pragma once
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "planner/order/schedule.h"

namespace planner::order {

// Greatest slack that the joints closed by one join can have, if it were the only one: all spread,
// joined, and each one's clamp round put on at once, and tightened with its ring. Large where it
// closes no glued joint.
int slack_of_join_alone(const ScheduleProblem& problem, std::span<const int> joints);

// The same for one way of taking a group apart, however it is worked out; `last`: the group is the
// whole.
using JoinAlone = std::function<int(const Split& split)>;

// For each group: the most slack that its worst join has, over all ways of putting it together.
class JoinBottleneck {
 public:
  // `graph` must outlive this.
  JoinBottleneck(AssemblyGraph& graph, JoinAlone alone) : graph_(graph), alone_(std::move(alone)) {}

  // An upper bound on the slack of any schedule and any staging of the group.
  int best_slack(int group);
  int split_slack(const Split& split) const { return alone_(split); }

  // The join that sets best_slack(whole).
  std::optional<Split> worst_join();

 private:
  AssemblyGraph& graph_;
  JoinAlone alone_;
  std::vector<std::optional<int>> known_;
  std::optional<double> enough_;  // of the graph's work; a bound then costs more than it saves
};

// By slack_of_join_alone. `problem` must outlive it.
JoinAlone by_own_limits(const ScheduleProblem& problem);

struct UnavoidableJoin {
  base::UnitSet first, second;
  std::vector<int> joints;
  int short_by_s = 0;
};

// The join to name where every way of putting the whole together has one that outlasts its glue;
// nothing where there is a way without. Without the clamp rounds, where problem.groups is empty.
// REQUIRES: the whole comes apart.
std::optional<UnavoidableJoin> unavoidable_join(const ScheduleProblem& problem,
                                                KnownAssemblies known = {});

}  // namespace planner::order
