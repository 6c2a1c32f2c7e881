// Forces for clamps whose places are chosen: the pressing of the least pressed place made as strong
// as the clamps allow. Small and dense: tens of clamps, hundreds of places.
#pragma once
#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace planner::clamps::count {

// What each clamp spot does to each place on the glue lines, as a share of what the place needs:
// 1 is enough. Linear: at_rest + sum of force x per_N.
struct PressTable {
  std::size_t places = 0, spots = 0;
  std::vector<double> per_N;    // spot after spot: [spot * places + place], share of need a newton
  std::vector<double> at_rest;  // a place each: what gaps between the parts do before any force

  std::span<const double> of(std::size_t spot) const {
    return std::span(per_N).subspan(spot * places, places);
  }
};

struct MaxMinForces {
  double least = 0;  // share of its need that the least pressed place gets; given up: no more than this
  std::vector<double> force_N;  // in the order of `chosen`
  // Why not more: a weighting of the places (they sum to 1) under which no forces within the limits
  // on the chosen spots give a weighted mean above `least`.
  std::vector<double> weight;
};

// Exact to rounding (a linear programme in its dual form, where few clamps make a small basis). Given up,
// without forces, as soon as it is proven that `enough` isn't reached.
// REQUIRES: at least one place; 0 <= snug <= limit, one of each a spot of the table.
MaxMinForces max_min_forces(const PressTable& table, std::span<const std::size_t> chosen,
                            std::span<const double> snug_N, std::span<const double> limit_N,
                            double enough = std::numeric_limits<double>::lowest());

}  // namespace planner::clamps::count
