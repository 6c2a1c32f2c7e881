// What the search of a schedule asks again and again, worked out once.
#pragma once
#include <cstdint>
#include <unordered_map>
#include <vector>

#include "planner/order/join_bottleneck.h"

namespace planner::order {

// Joints that differ only in their seconds and units are of one limit class. Only so many classes
// are told apart by bits.
inline constexpr std::size_t kMostClasses = 32;

// What one way of taking a group apart asks. Groups of clamps are bits here and below.
struct SplitNeeds {
  std::uint32_t opens = 0;  // groups that wait for one of its joints: unsnugged before
  int slack = 0;            // no more than this, by its joints alone
  bool allowed = true;      // hands enough, the lid last, not left out
};

// A group of units that is still together.
struct Block {
  bool ready = false;
  std::vector<SplitNeeds> needs;             // as the graph's splits
  std::vector<int> by_slack;                 // indices, most promising first
  std::vector<int> class_seconds;            // spreading still to come, by limit class
  std::vector<std::vector<int>> spreadings;  // the same, one by one
  std::vector<std::uint32_t> waiting;        // groups that wait for its joints, by limit class
  std::uint32_t classes = 0;                 // with joints in it
  std::unordered_map<std::uint32_t, int> joins_to_open;  // by set of classes
};

class ScheduleFacts {
 public:
  // `problem` and `graph` must outlive this.
  ScheduleFacts(const ScheduleProblem& problem, AssemblyGraph& graph);

  const ScheduleProblem& problem() const { return problem_; }
  AssemblyGraph& graph() { return graph_; }
  JoinBottleneck& bottleneck() { return bottleneck_; }

  // Limit classes: what their joints have in common.
  const std::vector<JointTime>& classes() const { return classes_; }
  // Whatever comes together takes so long or longer.
  int least_joining_s() const { return least_joining_s_; }
  // By group: the longest least wait of its joints, and whether any has one.
  const std::vector<int>& waits() const { return wait_of_; }
  bool any_waits() const { return any_waits_; }
  // Groups that wait for the last join, or for a group that does.
  std::uint32_t closing_groups() const { return closing_groups_; }
  // Those that must be snugged after the group.
  std::uint32_t snug_later(std::size_t group) const { return snug_later_[group]; }

  // By id in the graph.
  Block& block(int id);
  // Joins that must come apart before every joint of these classes is open: units that only other
  // contacts hold together may stay together.
  int joins_to_open(int id, std::uint32_t classes);

 private:
  void note_order_of_groups();
  Block look_at(int id);
  SplitNeeds needs_of(int id, const Split& split) const;

  const ScheduleProblem& problem_;
  AssemblyGraph& graph_;
  JoinBottleneck bottleneck_;
  std::vector<JointTime> classes_;
  std::vector<int> class_of_;  // by joint
  std::vector<int> wait_of_;
  bool any_waits_ = false;
  int least_joining_s_ = 0;
  std::vector<std::uint32_t> closed_first_;  // by joint: groups that wait for it
  std::uint32_t waits_for_all_ = 0;          // groups that wait for no joint: after the last join
  std::uint32_t closing_groups_ = 0;
  std::vector<std::uint32_t> snug_later_;
  std::vector<Block> blocks_;
};

}  // namespace planner::order
