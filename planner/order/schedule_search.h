// The search of schedule.cpp: depth first, backwards from the moment everything is held
// (schedule_moves.h), along what schedule_branching.h offers, cut off by schedule_bounds.h and by
// what was explored before.
#pragma once
#include <cstdint>
#include <optional>
#include <vector>

#include "planner/order/explored_moments.h"

namespace planner::order {

class ScheduleSearch {
 public:
  // `problem` and `graph` must outlive this.
  ScheduleSearch(const ScheduleProblem& problem, AssemblyGraph& graph)
      : facts_(problem, graph), explored_(problem.ties) {}

  enum class Answer { yes, no, unknown };

  // Is there a schedule in which every joint has at least `slack_s` left? Its moves in `moves()`.
  // unknown: more than `nodes` nodes would be needed.
  // unknown too: more than `share` of the graph's work that is left.
  Answer reachable(int slack_s, std::int64_t nodes, double share = 1);
  // The cheapest of them; starts from moves() where those are of this slack. yes: proven cheapest;
  // unknown: moves() is the best met within `nodes`.
  Answer cheapest(int slack_s, std::int64_t nodes);

  const Moves& moves() const { return best_moves_; }
  int moves_slack_s() const { return best_slack_s_; }
  std::int64_t nodes() const { return nodes_; }
  // No schedule has more slack: the joins that cannot be avoided, each by itself.
  int slack_bound() { return facts_.bottleneck().best_slack(facts_.graph().whole()); }
  // True where ways of taking apart or of spreading were left untried.
  bool cut_short() { return cut_short_ || !facts_.graph().complete(); }

 private:
  void start(int slack_s, bool any_wanted, std::int64_t nodes, double share);
  bool spent();
  bool search(std::size_t depth);
  bool finish(const Moment& first);
  bool dearer_than_best(const OrderCost& cost) const {
    return best_cost_ && as_dear(facts_.problem().ties, cost, *best_cost_);
  }

  ScheduleFacts facts_;
  ExploredMoments explored_;
  int slack_ = 0;
  bool any_wanted_ = true;  // or else the cheapest
  std::int64_t nodes_ = 0, node_limit_ = 0;
  double work_limit_ = 0;
  bool out_of_nodes_ = false, cut_short_ = false;
  std::vector<Moment> moments_;  // by depth
  Moves path_, best_moves_;
  int best_slack_s_ = 0;
  std::optional<OrderCost> best_cost_;
};

}  // namespace planner::order
