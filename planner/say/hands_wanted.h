// Joins that want more hands than the people have: each that is missing is a block that props.
#pragma once
#include <vector>

#include "planner/plan/plan.h"

namespace planner::say {

struct HandsWanted {
  int step = 0;                     // the join's number
  int hands = 0;                    // one brings its parts, one is on each that would fall
  int props = 0;                    // what is missing of them
  std::vector<work::PartId> loose;  // what would fall, until it is pressed or holds itself
};

// The joins of a stage for which two hands a person are not enough, in order. A part wants its hand
// from its join on until its clamps are snug, or a later join leaves it standing (standing.h).
std::vector<HandsWanted> joins_short_of_hands(const plan::Stage& stage, int people);

}  // namespace planner::say
