// Straight glue lines whose fewest clamps other solvers have proven, as questions of ours.
#pragma once
#include <vector>

#include "planner/clamps/count/fewest_clamps.h"

namespace planner::pressure {

// A line of tests/reference/placements.json: two red-oak boards L long, h wide, b thick.
struct SolvedLine {
  struct Kind {
    double least_N, most_N, pad_mm;
  };
  double length_mm, thick_mm, width_mm;
  double least_MPa, target_MPa, most_MPa;
  std::vector<Kind> kinds;
  double grid_mm, node_mm, moment_Nmm;
  int clamps;            // proven there by GLPK, CBC or an exhaustive search
  double deviation_MPa;  // least possible greatest |p - target| with that many
};

// 400, 1200 and 1800 mm long.
extern const SolvedLine kShort, kMiddle, kLong;

// Its rules as a question: every pressure within [least, most], the forces' moment about the
// middle within its limit, pads clear of one another by 2 mm. Every kind at every place is a spot.
clamps::count::PlacementQuestion question_of(const SolvedLine& line, double least_MPa,
                                             double most_MPa);

}  // namespace planner::pressure
