// The moments that the search of a schedule passes, backwards from when everything is held, and the
// moves between them. Seen backwards, a clamp round comes off, a join comes apart, and the joint it
// closed becomes a job that must be done before its time runs out; nothing that lies earlier needs
// to be known.
#pragma once
#include <cstdint>
#include <optional>
#include <vector>

#include "planner/order/schedule_facts.h"
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

// Compared in this order; of ties = shortest only `spent_s` counts: spreading that all wait for, and
// joins. What else takes everybody takes as long in any order.
struct OrderCost {
  int wiped_mm = 0, out_of_order = 0, spent_s = 0, late_snug = 0, moved = 0;
  friend auto operator<=>(const OrderCost&, const OrderCost&) = default;
};

// `cost` is no better than `known`.
inline bool as_dear(Ties ties, const OrderCost& cost, const OrderCost& known) {
  return ties == Ties::shortest ? cost.spent_s >= known.spent_s : cost >= known;
}

struct Moment {
  enum class Phase : std::int8_t { lid_on, to_check, open };

  std::vector<int> blocks;      // groups of two units or more, by id
  std::vector<Spreading> jobs;  // by seconds, then urgency
  std::vector<int> age;         // by group: seconds since it was snug; -1: its clamps are on
  std::vector<int> tight;       // by group: seconds since it was tight; -1: all its ring's are on
  Phase phase = Phase::open;
  int parted = 0;            // joins taken apart so far
  std::uint32_t opened = 0;  // groups some of whose joints are open again
  OrderCost cost;

  // The group's clamps are still on.
  bool snug(std::size_t group) const { return age[group] < 0; }
  // The ring's clamps are all on: its check and its tightening lie earlier.
  bool whole_ring(std::size_t group) const { return tight[group] < 0; }
  // Seconds since the joint was held; -1: that lies earlier. REQUIRES: it has a group.
  int held(const JointTime& joint) const {
    return (joint.held_snug ? age : tight)[static_cast<std::size_t>(joint.group)];
  }
};

// When everything is tight.
Moment last_moment(ScheduleFacts& facts);

// Seconds of everybody to take the group's clamps off: its snug round, and where it is the ring's
// last to go on, the ring's check and tightening after it.
int unsnug_s(const ScheduleProblem& problem, int group, const Moment& m);

// The moment before the move; false where some joint would have less than `slack_s` left.
bool follow(ScheduleFacts& facts, int slack_s, const Moment& from, const Move& move, Moment& to);

// Backwards: seconds, counted from the start of the join, within which a joint must have been
// spread to have `slack_s` left; `closed_s` from brought together to held. Nothing where its shared
// budget is spent before.
std::optional<int> spreading_left_s(const JointTime& joint, int slack_s, int closed_s, int join_s);

}  // namespace planner::order
