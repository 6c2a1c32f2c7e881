#include "cli/model/pressure_cells.h"

#include <algorithm>

#include "planner/pressure/crush.h"

namespace cli::model {
namespace {

using planner::plan::LinePressure;

struct Range {
  double least = 0, most = 0;
};

// The pressure within each of `cells` equal stretches of the line; straight between samples.
std::vector<Range> ranges_in_cells(const LinePressure& line, int cells) {
  const auto& s = line.samples;
  if (s.size() < 2 || s.back()[0] <= s.front()[0]) {
    return std::vector<Range>(static_cast<std::size_t>(cells), {line.min_MPa, line.max_MPa});
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
  std::vector<Range> ranges;
  const double length = s.back()[0] - s.front()[0];
  for (int c = 0; c < cells; ++c) {
    const double from = s.front()[0] + length * c / cells;
    const double to = s.front()[0] + length * (c + 1) / cells;
    Range range{std::min(at(from), at(to)), std::max(at(from), at(to))};
    for (const auto& sample : s) {
      if (sample[0] > from && sample[0] < to) {
        range = {std::min(range.least, sample[1]), std::max(range.most, sample[1])};
      }
    }
    ranges.push_back(range);
  }
  return ranges;
}

}  // namespace

std::vector<PressureCell> pressure_cells(const LinePressure& line, int cells, double crush_MPa) {
  constexpr double kNothing_MPa = 1e-6;
  // A hundredth under the mark is the model's rounding, not a weak joint.
  constexpr double kNear = 0.99;
  std::vector<PressureCell> all;
  for (const Range& p : ranges_in_cells(line, cells)) {
    all.push_back(p.least <= kNothing_MPa           ? PressureCell::open
                  : p.most * kNear > crush_MPa      ? PressureCell::crushed
                  : p.least < kNear * line.hold_MPa ? PressureCell::weak
                  : p.least < kNear * line.full_MPa ? PressureCell::held
                                                    : PressureCell::full);
  }
  return all;
}

double crush_limit_MPa(const planner::plan::Plan& plan, const planner::plan::LinePressure& line) {
  double limit_MPa = 1e300;
  for (const planner::work::PartId part : plan.joints[line.joint].parts) {
    if (const planner::tables::Wood* wood = plan.parts[part].wood()) {
      limit_MPa = std::min(
          limit_MPa, planner::pressure::bearing_limit_MPa(*wood) / planner::pressure::kCrushShare);
    }
  }
  return limit_MPa;
}

}  // namespace cli::model
