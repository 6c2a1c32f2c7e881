// The smallest changes that mend the user's own clamps on one axis, each solved through the
// pressure model before it is offered.
#pragma once
#include <string>
#include <vector>

#include "planner/axis_state.h"
#include "planner/placed_round.h"

namespace planner {

struct PlacedAxis {
  const Job& job;
  const PlacedRound& round;
  std::vector<TrialClamp> clamps;
  std::vector<int> numbers;  // what each is called, from 1
};

// What dents is given pads and what lies beside a line's middle is brought back to it first; if the
// lines then still starve: one clamp moved along its line, all drawn harder, all spread evenly,
// longer pads, more clamps, as far as each of them alone mends it. Least trouble first; nothing
// where all is well.
std::vector<WayOut> placed_mends(const PlacedAxis& axis);

}  // namespace planner
