// The search of schedule.cpp: backwards from the moment everything is held. Seen backwards, a
// clamp round comes off, a join comes apart, and the joint it closed becomes a job that must be
// done before its time runs out; nothing that lies earlier needs to be known.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "planner/order/join_bottleneck.h"
#include "planner/order/schedule.h"
#include "planner/order/spread_window.h"

namespace planner::order {

// What everybody does together, seen backwards.
struct Barrier {
  enum class Kind { unsnug, part, inside_check } kind = Kind::unsnug;
  int group = -1;             // unsnug
  int pause_s = 0;            // unsnug: everybody waits so long before the round
  int block = -1, split = 0;  // part: id in the graph and index into its splits
};

// Spreading, then (earlier on the clock) a barrier; the last move has no barrier.
struct Move {
  SpreadWindow window;
  std::optional<Barrier> barrier;
};
using Moves = std::vector<Move>;

// Compared in this order; of ties = shortest only `windows` counts.
struct OrderCost {
  int wiped_mm = 0, out_of_order = 0, windows_s = 0, late_snug = 0, moved = 0;
  friend auto operator<=>(const OrderCost&, const OrderCost&) = default;
  friend OrderCost operator+(const OrderCost& a, const OrderCost& b) {
    return {a.wiped_mm + b.wiped_mm, a.out_of_order + b.out_of_order, a.windows_s + b.windows_s,
            a.late_snug + b.late_snug, a.moved + b.moved};
  }
};

// Backwards: seconds, counted from the start of the join, within which a joint must have been
// spread to have `slack_s` left; `closed_s` from brought together to held. Nothing where its shared
// budget is spent before.
std::optional<int> spreading_left_s(const JointTime& joint, int slack_s, int closed_s, int join_s);

class ScheduleSearch {
 public:
  ScheduleSearch(const ScheduleProblem& problem, AssemblyGraph& graph);

  enum class Answer { yes, no, unknown };

  // Is there a schedule in which every joint has at least `slack_s` left? Its moves in `moves()`.
  // unknown: more than `nodes` nodes would be needed.
  Answer reachable(int slack_s, std::int64_t nodes);
  // The cheapest of them; starts from moves() where those are of this slack. yes: proven cheapest;
  // unknown: moves() is the best met within `nodes`.
  Answer cheapest(int slack_s, std::int64_t nodes);

  const Moves& moves() const { return best_moves_; }
  int moves_slack_s() const { return best_slack_s_; }
  std::int64_t nodes() const { return nodes_; }
  // No schedule has more slack: the joins that cannot be avoided, each by itself.
  int slack_bound();
  // Seconds of a round of the group's clamps.
  int snug_round_s(int group) const;
  int tighten_round_s(int group) const;
  // Least wait before pressing; none for a joint that no clamps press.
  static int wait_s(const JointTime& joint);
  // True where ways of taking apart or of spreading were left untried.
  bool cut_short() const { return cut_short_ || !graph_.complete(); }

 private:
  static constexpr std::int8_t kLidOn = 0, kToCheck = 1, kOpen = 2;

  struct State {
    std::vector<int> blocks;      // groups of two units or more, by id
    std::vector<Spreading> jobs;  // by seconds, then urgency
    std::vector<int> age;         // by group: seconds since it was held; -1: still snug
    std::int8_t phase = kOpen;
    int parted = 0;            // joins taken apart so far
    std::uint32_t opened = 0;  // groups some of whose joints are open again
    OrderCost cost;
  };

  // Joints that differ only in their seconds and units.
  struct LimitClass {
    JointTime limits;
    int round_s = 0;
  };

  struct SplitNeeds {
    std::uint32_t opens = 0;  // groups that wait for one of its joints: unsnugged before
    int slack = 0;            // no more than this, by its joints alone
    bool allowed = true;      // hands enough, the lid last, not left out
  };

  struct BlockView {
    bool ready = false;
    std::vector<SplitNeeds> needs;             // as the graph's splits
    std::vector<int> by_slack;                 // indices, most promising first
    std::vector<int> class_seconds;            // spreading still to come, by limit class
    std::vector<std::vector<int>> spreadings;  // the same, one by one
    std::vector<std::uint32_t> waiting;        // groups that wait for its joints, by limit class
    std::uint32_t classes = 0;                 // with joints in it
    std::unordered_map<std::uint32_t, int> joins_to_open;  // by set of classes
  };

  struct Explored {
    std::vector<int> left;  // larger is easier
    int slack = 0;          // at which it was explored
    OrderCost cost;         // found to be no better from this cost on
    bool hopeless = false;  // no schedule at all, whatever it costs
  };

  void note_order_of_groups();
  BlockView& view(int block);
  void fill_view(int block);
  SplitNeeds needs_of(int block, const Split& split) const;
  int joins_to_open(int block, std::uint32_t classes);

  State initial() const;
  bool search(std::size_t depth);
  bool finish(std::size_t depth);
  bool enough_time(const State& s);
  bool waits_end(const State& s);
  int seconds_in(const State& s, std::size_t limit_class);
  int seconds_before_open(const State& s, std::uint32_t classes);
  bool too_dear(const State& s);
  std::vector<SpreadWindow> windows(const State& s);
  std::vector<Barrier> barriers(const State& s);
  bool follow(const State& from, const Move& move, State& to);
  bool follow_window(const SpreadWindow& window, State& s) const;
  bool part(const Barrier& barrier, State& s);
  bool release(int joint, int join_s, State& s) const;
  bool advance(State& s, int seconds) const;
  int seconds_of(const Barrier& barrier, const State& s) const;
  int urgent_limit(const State& s);
  std::string key(const State& s) const;
  std::vector<int> left(const State& s);
  bool explored(const std::string& key, const std::vector<int>& left, const OrderCost& cost) const;
  void remember(std::string key, std::vector<int> left, const OrderCost& cost, bool hopeless);
  bool given(const State& s, const Split& split) const;

  const ScheduleProblem& problem_;
  AssemblyGraph& graph_;
  JoinBottleneck bottleneck_;
  std::vector<LimitClass> classes_;
  std::vector<int> class_of_;                // by joint
  std::vector<int> wait_of_;                 // by group: longest least wait of its joints
  std::vector<std::uint32_t> closed_first_;  // by joint: groups that wait for it
  std::uint32_t waits_for_all_ = 0;          // groups that wait for no joint: after the last join
  // Groups that wait for the last join, or for a group that does.
  std::uint32_t closing_groups_ = 0;
  std::vector<std::uint32_t> snug_later_;  // by group: those that must be snugged after it
  std::vector<BlockView> views_;
  std::unordered_map<std::string, std::vector<Explored>> memo_;

  int slack_ = 0;
  bool first_only_ = true;
  std::int64_t nodes_ = 0, node_limit_ = 0;
  bool out_of_nodes_ = false, cut_short_ = false;
  std::vector<State> states_;
  Moves path_, best_moves_;
  int best_slack_s_ = 0;
  std::optional<OrderCost> best_cost_;
};

}  // namespace planner::order
