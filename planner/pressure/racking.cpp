#include "planner/pressure/racking.h"

#include <algorithm>
#include <cmath>

namespace planner::pressure {
namespace {

double total_N(std::span<const OffsetForce> forces) {
  double sum = 0;
  for (const OffsetForce& each : forces)
    sum += each.force_N;
  return sum;
}

double moment_Nmm(std::span<const OffsetForce> forces) {
  double sum = 0;
  for (const OffsetForce& each : forces)
    sum += each.force_N * each.offset_mm;
  return sum;
}

}  // namespace

double resultant_offset_mm(std::span<const OffsetForce> forces) {
  return moment_Nmm(forces) / total_N(forces);
}

OffsetVerdict judge_offset(double offset_mm, double width_mm) {
  // A clamp set on the mark may be off by rounding.
  const double share = std::abs(offset_mm) / width_mm - 1e-9;
  if (share > 1.0 / 3)
    return OffsetVerdict::too_far;
  return share > 1.0 / 6 ? OffsetVerdict::edge_opens : OffsetVerdict::good;
}

EdgePressures pressure_across(double force_N, double length_mm, double width_mm, double offset_mm) {
  const double mean = force_N / (length_mm * width_mm), off = std::abs(offset_mm) / width_mm;
  if (off <= 1.0 / 6)
    return {mean * (1 + 6 * off), mean * (1 - 6 * off), width_mm};
  const double contact = 3 * width_mm * (0.5 - off);
  return {2 * force_N / (length_mm * contact), 0, contact};
}

OffsetRemedy mend_offset(std::span<const OffsetForce> forces, double width_mm) {
  OffsetRemedy remedy;
  const double total = total_N(forces), allowed = total * width_mm / 6;
  double moment = moment_Nmm(forces);
  std::vector<char> swapped(forces.size(), 0);
  while (std::abs(moment) > allowed) {
    std::size_t best = forces.size();
    double least = std::abs(moment);
    for (std::size_t i = 0; i < forces.size(); ++i) {
      const double after = std::abs(moment - 2 * forces[i].force_N * forces[i].offset_mm);
      if (!swapped[i] && after < least) {
        least = after;
        best = i;
      }
    }
    if (best == forces.size())
      break;
    swapped[best] = 1;
    moment -= 2 * forces[best].force_N * forces[best].offset_mm;
  }
  for (std::size_t i = 0; i < forces.size(); ++i)
    if (swapped[i])
      remedy.swap.push_back(i);
  if (std::abs(moment) > allowed)
    remedy.shift_mm = -moment / total;
  return remedy;
}

double racking_moment_Nmm(std::span<const SlantedForce> forces) {
  double sum = 0;
  for (const SlantedForce& each : forces)
    sum += each.force_N * (each.low_mm - each.high_mm);
  return sum;
}

double head_shift_mm(std::span<const SlantedForce> forces) {
  double total = 0;
  for (const SlantedForce& each : forces)
    total += each.force_N;
  return racking_moment_Nmm(forces) / total;
}

}  // namespace planner::pressure
