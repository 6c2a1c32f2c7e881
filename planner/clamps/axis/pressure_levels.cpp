#include "planner/clamps/axis/pressure_levels.h"

#include <algorithm>
#include <cmath>

#include "planner/clamps/axis/clamp_shortfall.h"

namespace planner::clamps::axis {
namespace {

constexpr int kHalvings = 12;

// How much of the clamps' force on a bowed line goes into closing it: all, where it stays open.
double closing_force_N(const AxisClamps& plan, std::size_t l, std::span<const ChosenClamp> clamps) {
  std::vector<ChosenClamp> drawn(clamps.begin(), clamps.end());
  const auto closes = [&](double share) {
    for (std::size_t i = 0; i < drawn.size(); ++i) {
      drawn[i].force_N = share * clamps[i].force_N;
    }
    return press(plan, drawn)[l].profile.open_gap_mm <= pressure::kFilled_mm;
  };
  double least = 0, enough = 1;
  for (int i = 0; i < kHalvings && closes(1); ++i) {
    const double share = (least + enough) / 2;
    (closes(share) ? enough : least) = share;
  }
  double force = 0;
  for (const ChosenClamp& c : clamps) {
    force += plan.model->presses(c.site, l) ? enough * c.force_N : 0;
  }
  return force;
}

plan::LinePressure held(const AxisClamps& plan, std::size_t l, const LineResult& result,
                        const pressure::LineProfile& weak) {
  const AskedLine& line = plan.lines[l];
  plan::LinePressure out;
  out.joint = line.joint;
  out.face = line.face;
  out.axis = plan.round.axis;
  out.hold_MPa = line.hold_MPa;
  out.full_MPa = line.full_MPa;
  out.min_MPa = result.profile.min_MPa;
  out.mean_MPa = result.profile.mean_MPa;
  out.max_MPa = result.profile.max_MPa;
  out.open_gap_mm = result.profile.open_gap_mm;
  out.samples = result.samples;
  out.size_mm = {line.length_mm, line.across_mm};
  out.off_mm[0] = result.profile.force_N > 0 ? result.profile.centre_mm - line.length_mm / 2 : 0;
  out.estimated = line.estimated;
  out.level = level_of(result.profile, weak, out.hold_MPa, out.full_MPa);
  return out;
}

// A rigid share of what passes through: enough for a face that only has to close.
plan::LinePressure closed(const AxisClamps& plan, std::size_t l,
                          std::span<const ChosenClamp> clamps) {
  const AskedLine& line = plan.lines[l];
  double force = 0;
  for (const ChosenClamp& c : clamps) {
    const auto& at = plan.sites[c.site].presses;
    force += std::any_of(at.begin(), at.end(), [l](const PressedAt& p) { return p.line == l; })
                 ? c.force_N
                 : 0;
  }
  plan::LinePressure out;
  out.joint = line.joint;
  out.face = line.face;
  out.axis = plan.round.axis;
  out.hold_MPa = line.hold_MPa;
  out.full_MPa = line.full_MPa;
  out.min_MPa = out.mean_MPa = out.max_MPa = force / (line.length_mm * line.width_mm);
  out.size_mm = {line.length_mm, line.across_mm};
  out.estimated = true;
  out.level = plan::Level::seat;
  return out;
}

}  // namespace

plan::Level level_of(const pressure::LineProfile& planned, const pressure::LineProfile& weak,
                     double hold_MPa, double full_MPa) {
  const auto sure = [](const pressure::LineProfile& p) { return sure_MPa(p.min_MPa, p.mean_MPa); };
  if (sure(weak) < hold_MPa * kNearlyOne) {
    return plan::Level::short_of_hold;
  }
  return sure(planned) < full_MPa * kNearlyOne ? plan::Level::hold : plan::Level::full;
}

std::vector<plan::LinePressure> line_pressures(const AxisClamps& plan,
                                               std::span<const ChosenClamp> clamps) {
  std::vector<plan::LinePressure> out;
  if (plan.held_lines > 0) {
    const std::vector<LineResult> results = press(plan, clamps);
    const std::vector<pressure::LineProfile> weak = weakly(plan, clamps, results);
    const std::vector<double> beside = offsets_mm(plan, clamps);
    for (std::size_t l = 0; l < plan.held_lines; ++l) {
      out.push_back(held(plan, l, results[l], weak[l]));
      out.back().off_mm[1] = beside[l];
      if (plan.lines[l].bow_mm != 0) {
        out.back().bow_mm = std::abs(plan.lines[l].bow_mm);
        out.back().closing_N = closing_force_N(plan, l, clamps);
      }
    }
  }
  for (std::size_t l = plan.held_lines; l < plan.lines.size(); ++l) {
    out.push_back(closed(plan, l, clamps));
  }
  std::sort(out.begin(), out.end(), [](const plan::LinePressure& a, const plan::LinePressure& b) {
    return a.joint != b.joint ? a.joint < b.joint : a.face < b.face;
  });
  return out;
}

void tell_snug(const AxisClamps& plan, std::span<const ChosenClamp> clamps,
               std::span<const ChosenClamp> snug, std::vector<plan::LinePressure>& lines) {
  double share = 0;
  for (std::size_t i = 0; i < clamps.size(); ++i) {
    share = std::max(share, snug[i].force_N / clamps[i].force_N);
  }
  const bool may_hold = std::ranges::any_of(lines, [&](const plan::LinePressure& line) {
    return line.level != plan::Level::seat && share * kWeakHand * line.mean_MPa >= line.hold_MPa;
  });
  if (!may_hold || plan.held_lines == 0) {
    return;
  }
  const std::vector<LineResult> results = press(plan, snug);
  const std::vector<pressure::LineProfile> weak = weakly(plan, snug, results);
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    const auto told = std::ranges::find_if(lines, [&](const plan::LinePressure& line) {
      return line.joint == plan.lines[l].joint && line.face == plan.lines[l].face;
    });
    told->snug_holds = level_of(results[l].profile, weak[l], told->hold_MPa, told->full_MPa) !=
                       plan::Level::short_of_hold;
  }
}

}  // namespace planner::clamps::axis
