#include "planner/work/bend.h"

namespace planner::work {

double Bend::form_radius_mm() const {
  return radius.mm() * (1 - 1.0 / (plies * plies));
}

double Bend::moment_Nmm(double along_grain_MPa) const {
  const double t = ply.mm();
  return plies * along_grain_MPa * width.mm() * t * t * t / 12 / form_radius_mm();
}

}  // namespace planner::work
