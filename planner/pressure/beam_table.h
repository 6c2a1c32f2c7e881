// Deflection of beams and cauls: Wood Handbook (GTR-190) equation 9-2 with Table 9-1.
#pragma once
#include "planner/pressure/pressure_line.h"

namespace planner::pressure {

// Load, supports, and where the deflection is taken.
enum class BeamCase {
  uniform_simple,               // at midspan
  uniform_clamped,              // at midspan
  midspan_force_simple,         // at midspan
  midspan_force_clamped,        // at midspan
  quarter_forces_simple,        // two forces at the outer quarter points; at midspan
  quarter_forces_simple_there,  // the same; at a force
  uniform_cantilever,           // at the free end
  end_force_cantilever          // at the free end
};

struct BeamConstants {
  double bending = 0, shear = 0;  // k_b and k_s
};
BeamConstants beam_constants(BeamCase which);

// k_b W L^3 / (E I) + k_s W L / (G A'), W the total load.
double beam_deflection_mm(BeamCase which, const BeamLayer& beam, double span_mm,
                          double total_load_N);

// The gap to plane at the middle of a caul clamped at its two ends, so that under `force_N` in all
// it presses evenly: its deflection under that force spread along it. The ends are planed away, the
// middle touches first. Common practice; `span_mm` between the clamps.
double caul_camber_mm(const Caul& caul, double span_mm, double force_N);

inline constexpr double kShaving_mm = 0.1;  // less can't be planed; common practice
// A camber is cut for so much of what holds: the model's margin, and what stays uneven.
inline constexpr double kCamberOver = 1.25;

}  // namespace planner::pressure
