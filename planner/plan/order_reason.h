// Why a stage's order is what it is: a struct a kind. cli/words/order_words.h words them.
#pragma once
#include <variant>
#include <vector>

#include "planner/work/joint.h"

namespace planner::plan {

// Where the time of the tightest joint goes; the shares add up to used_s.
struct TightestJoint {
  work::JointId joint = 0;
  bool open = true;  // its open time; false: the total
  double used_s = 0, limit_s = 0;
  double spreading_s = 0, joining_s = 0, snugging_s = 0, checking_s = 0;
  double tightening_s = 0, waiting_s = 0;
};

// The best order without one of this one's joins has so much less to spare.
struct NextBestOrder {
  std::vector<work::PartId> moving, staying;  // of that join
  double less_s = 0;
};

struct NoOtherOrder {};
struct NoneBetter {};   // all were looked at or ruled out
struct MaybeBetter {};  // the search was cut short

// The side that lies on the bench, and how many parts want a hand so and as drawn.
struct BenchSideChosen {
  geometry::Direction down, down_as_drawn;
  int hands = 0, hands_as_drawn = 0;
};
// What closes the work comes down on it at last.
struct ClosedFromAbove {};

using OrderReason = std::variant<TightestJoint, NextBestOrder, NoOtherOrder, NoneBetter,
                                 MaybeBetter, BenchSideChosen, ClosedFromAbove>;

}  // namespace planner::plan
