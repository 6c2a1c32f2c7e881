// The smallest changes that mend the user's own clamps on one axis, each solved through the
// pressure model before it is offered.
#pragma once
#include <string>
#include <vector>

#include "planner/clamps/axis/clamp_shortfall.h"
#include "planner/clamps/axis/clamps_at.h"

namespace planner::placed {

struct PlacedAxis {
  const work::Job& job;
  const clamps::axis::ClampsAt& round;
  std::vector<clamps::axis::TrialClamp> clamps;
  std::vector<int> numbers;  // what each is called, from 1
};

// What dents is given pads and what lies beside a line's middle is brought back to it first; if the
// lines then still starve: one clamp moved along its line, all drawn harder, all spread evenly,
// longer pads, more clamps, as far as each of them alone mends it. Least trouble first; nothing
// where all is well.
std::vector<plan::WayOut> placed_mends(const PlacedAxis& axis);

}  // namespace planner::placed
