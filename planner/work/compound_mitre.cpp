#include "planner/work/compound_mitre.h"

#include <numbers>

#include "geometry/elementary.h"

namespace planner::work {

CompoundMitre compound_mitre(int sides, double slope_deg) {
  constexpr double kDegree = std::numbers::pi / 180;
  if (slope_deg == 0) {
    return {180.0 / sides, 0};  // as it is written, without rounding
  }
  const double half = std::numbers::pi / sides, slope = slope_deg * kDegree;
  return {geometry::arc_sine(geometry::sine(half) * geometry::cosine(slope)) / kDegree,
          geometry::arc_tangent(geometry::tangent(half) * geometry::sine(slope)) / kDegree};
}

}  // namespace planner::work
