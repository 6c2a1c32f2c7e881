// What a glue line's pressure comes to.
#pragma once
#include <span>

#include "planner/pressure/pressure_system.h"

namespace planner::pressure {

inline constexpr double kFilled_mm = 0.1;  // thinner gaps any glue fills

struct LineProfile {
  double min_MPa = 0, mean_MPa = 0, max_MPa = 0;  // mean over the length
  double starved_share = 0;                       // of the length under half the mean
  double open_gap_mm = 0;                         // the widest that stays open
  double force_N = 0;                             // carried by the line
  double centre_mm = 0;                           // x of its resultant
};

// Of the samples of one bed. `gap_mm` may be empty (influence form: all closed).
// REQUIRES: values as many as samples; the bed has samples.
LineProfile profile_of(int line, int bed, std::span<const BedSample> samples,
                       std::span<const double> pressure_MPa, std::span<const double> gap_mm);

}  // namespace planner::pressure
