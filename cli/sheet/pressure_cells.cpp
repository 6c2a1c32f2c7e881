#include "cli/sheet/pressure_cells.h"

#include <algorithm>

namespace cli {
namespace {

using planner::LinePressure;

// The least pressure within each of `cells` equal stretches of the line; straight between samples.
std::vector<double> least_in_cells(const LinePressure& line, int cells) {
  const auto& s = line.samples;
  if (s.size() < 2 || s.back()[0] <= s.front()[0]) {
    return std::vector<double>(static_cast<std::size_t>(cells), line.min_MPa);
  }
  const auto at = [&](double x) {
    std::size_t i = 1;
    while (i + 1 < s.size() && s[i][0] < x) {
      ++i;
    }
    const double span = s[i][0] - s[i - 1][0];
    const double t = span > 0 ? std::clamp((x - s[i - 1][0]) / span, 0.0, 1.0) : 0;
    return s[i - 1][1] + t * (s[i][1] - s[i - 1][1]);
  };
  std::vector<double> least;
  const double length = s.back()[0] - s.front()[0];
  for (int c = 0; c < cells; ++c) {
    const double from = s.front()[0] + length * c / cells;
    const double to = s.front()[0] + length * (c + 1) / cells;
    double lowest = std::min(at(from), at(to));
    for (const auto& sample : s) {
      if (sample[0] > from && sample[0] < to) {
        lowest = std::min(lowest, sample[1]);
      }
    }
    least.push_back(lowest);
  }
  return least;
}

}  // namespace

std::vector<PressureCell> pressure_cells(const LinePressure& line, int cells) {
  constexpr double kNothing_MPa = 1e-6;
  // A hundredth under the mark is the model's rounding, not a starved joint.
  constexpr double kNear = 0.99;
  std::vector<PressureCell> all;
  for (const double p : least_in_cells(line, cells)) {
    all.push_back(p <= kNothing_MPa           ? PressureCell::open
                  : p < kNear * line.hold_MPa ? PressureCell::starved
                  : p < kNear * line.full_MPa ? PressureCell::held
                                              : PressureCell::full);
  }
  return all;
}

}  // namespace cli
