#include "planner/clamps/layout/clamp_count.h"

#include <cmath>

namespace planner::clamps::layout {
namespace {

// A count that comes out whole must not be rounded up by the last bit.
int count_up(double wanted) {
  return static_cast<int>(std::ceil(wanted - 1e-9));
}

}  // namespace

int clamps_for_force(double needed_N, double each_N) {
  return count_up(needed_N / each_N);
}

double spacing_at_45_degrees_mm(double pad_mm, double depth_mm) {
  return pad_mm + 2 * depth_mm;
}

int clamps_at_45_degrees(double length_mm, double pad_mm, double depth_mm) {
  return count_up(length_mm / spacing_at_45_degrees_mm(pad_mm, depth_mm));
}

}  // namespace planner::clamps::layout
