#include "planner/pressure/pressure_profile.h"

#include <algorithm>
#include <cstddef>
#include <limits>

namespace planner::pressure {
namespace {

// Share of a straight run from a to b that lies below zero.
double share_below(double a, double b) {
  if (a >= 0 && b >= 0)
    return 0;
  if (a < 0 && b < 0)
    return 1;
  return std::min(a, b) / (std::min(a, b) - std::max(a, b));
}

}  // namespace

LineProfile profile_of(int line, int bed, std::span<const BedSample> samples,
                       std::span<const double> pressure_MPa, std::span<const double> gap_mm) {
  LineProfile out;
  out.min_MPa = std::numeric_limits<double>::infinity();
  out.max_MPa = -out.min_MPa;
  double length = 0, integral = 0, moment = 0;
  const auto each = [&](auto&& visit) {
    for (std::size_t i = 0; i < samples.size(); ++i)
      if (samples[i].line == line && samples[i].bed == bed)
        visit(i, samples[i]);
  };
  each([&](std::size_t i, const BedSample& s) {
    const double p = pressure_MPa[i], force = p * s.length_mm * s.width_mm;
    out.min_MPa = std::min(out.min_MPa, p);
    out.max_MPa = std::max(out.max_MPa, p);
    if (!gap_mm.empty())
      out.open_gap_mm = std::max(out.open_gap_mm, gap_mm[i]);
    length += s.length_mm;
    integral += p * s.length_mm;
    moment += force * s.x_mm;
    out.force_N += force;
  });
  out.mean_MPa = integral / length;
  if (out.force_N != 0)
    out.centre_mm = moment / out.force_N;
  double starved = 0;
  const BedSample* last = nullptr;
  double before = 0;
  each([&](std::size_t i, const BedSample& s) {
    const double over = pressure_MPa[i] - out.mean_MPa / 2;
    if (last)
      starved += (s.x_mm - last->x_mm) * share_below(before, over);
    last = &s;
    before = over;
  });
  out.starved_share = starved / length;
  return out;
}

}  // namespace planner::pressure
