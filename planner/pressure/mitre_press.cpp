#include "planner/pressure/mitre_press.h"

#include <cmath>
#include <numbers>

#include "geometry/elementary.h"

namespace planner::pressure {

MitreForce mitre_force(double one_N, double other_N, double cos_one, double cos_other) {
  const double one = std::abs(cos_one), other = std::abs(cos_other);
  return {one_N * one + other_N * other, std::abs(one_N * other - other_N * one)};
}

bool slides(const MitreForce& force, double friction) {
  return force.shear_N > friction * force.normal_N;
}

double bare_strap_share(double turn) { return geometry::cosine(turn / 2); }
double notched_strap_share(double turn) { return 1 / geometry::cosine(turn / 2); }

// The frame's corners are stiff: what a bar off the centreline bends, both ends of its member share
// by length. M = F sum e (l - e) / sum l, N = F sqrt 2.
double mitre_resultant(std::span<const FrameBar> bars, double width_mm) {
  double moment = 0, runs = 0;
  for (const FrameBar& bar : bars) {
    moment += bar.off_mm * (bar.run_mm - bar.off_mm);
    runs += bar.run_mm;
  }
  const double arm_mm = runs > 0 ? moment / runs / std::numbers::sqrt2 : 0;
  return 0.5 + arm_mm / (width_mm * std::numbers::sqrt2);
}

}  // namespace planner::pressure
