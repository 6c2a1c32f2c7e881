// What the search of a schedule tries next from a moment, seen backwards: each of the windows with
// each of the barriers.
#pragma once
#include <vector>

#include "planner/order/schedule_moves.h"

namespace planner::order {

struct WindowChoice {
  std::vector<SpreadWindow> windows;
  bool cut_short = false;  // others, or shorter ones, may have been left out
};

// What may be spread between this moment and the barrier before it; the most first.
WindowChoice next_windows(ScheduleFacts& facts, int slack_s, const Moment& m);

// Joins whose halves may still reach the slack, rounds that may come off, or the inside check.
// `likeliest_first`: for whoever wants any schedule rather than the cheapest.
std::vector<Barrier> next_barriers(ScheduleFacts& facts, int slack_s, const Moment& m,
                                   bool likeliest_first);

}  // namespace planner::order
