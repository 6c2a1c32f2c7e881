// Spreading between two moments at which everybody is needed: who spreads what.
#pragma once
#include <optional>
#include <span>
#include <vector>

namespace planner::order {

// A joint to spread, seen backwards from the end of the window: it must be started (forwards) no
// more than `left_s` before that end. While `wait_s` is not 0 its glue must stand longer before it
// is pressed: it cannot be spread as late as this window.
struct Spreading {
  int seconds = 0, left_s = 0, wait_s = 0;
  friend auto operator<=>(const Spreading&, const Spreading&) = default;
};

// Seconds before the window's end at which it is started, and by whom (from 0).
struct PlacedSpreading {
  Spreading what;
  int person = 0, before_s = 0;
};

struct SpreadWindow {
  int length_s = 0;
  std::vector<PlacedSpreading> placed;
  bool shortest = true;  // false: the search was cut short, a shorter window may exist
};

// The shortest window in which `people` spread all jobs, each in one go and inside its time, all
// ending with the window's end; nothing where there is none. Ties: the earlier person takes the
// more urgent. REQUIRES: jobs sorted by left_s.
std::optional<SpreadWindow> shortest_window(std::span<const Spreading> jobs, int people);

// A lower bound on the seconds that `people` need for jobs of these lengths, in however many
// windows: of the k * people + 1 longest, somebody does k + 1. REQUIRES: longest first.
int least_seconds(std::span<const int> longest_first, int people);

}  // namespace planner::order
