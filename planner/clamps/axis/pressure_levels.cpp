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
  out.too_slight = line.too_slight;
  out.most_MPa = line.most_MPa;
  out.level = level_of(line, result, weak);
  return out;
}

// A clamp brings the joint home, or a mallet can.
bool comes_home(const AxisClamps& plan, work::JointId joint, std::span<const ChosenClamp> clamps) {
  return !plan.round.home || plan.round.driven ||
         std::ranges::any_of(clamps, [&](const ChosenClamp& c) {
           return std::ranges::any_of(plan.sites[c.site].presses, [&](const PressedAt& p) {
             return plan.lines[p.line].joint == joint;
           });
         });
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
  out.level = comes_home(plan, line.joint, clamps) ? plan::Level::seat : plan::Level::short_of_hold;
  return out;
}

// Closed all along, and half of its length gets what holds, even from weak hands.
bool half_holds(const AskedLine& line, const LineResult& planned,
                const pressure::LineProfile& weak) {
  if (planned.profile.open_gap_mm > kClosedGap_mm || planned.profile.mean_MPa <= 0) {
    return false;
  }
  const double hands = weak.mean_MPa / planned.profile.mean_MPa;
  const auto holds = std::ranges::count_if(planned.samples, [&](const auto& sample) {
    return sure_MPa(hands * sample[1], weak.mean_MPa) >= line.hold_MPa * kNearlyOne;
  });
  return 2 * holds >= static_cast<std::ptrdiff_t>(planned.samples.size());
}

}  // namespace

plan::Level level_of(const AskedLine& line, const LineResult& planned,
                     const pressure::LineProfile& weak) {
  const auto sure = [](const pressure::LineProfile& p) { return sure_MPa(p.min_MPa, p.mean_MPa); };
  if (sure(weak) >= line.hold_MPa * kNearlyOne) {
    return sure(planned.profile) < line.full_MPa * kNearlyOne ? plan::Level::hold
                                                              : plan::Level::full;
  }
  const bool lightly = sure(weak) >= kLight_MPa * kNearlyOne || half_holds(line, planned, weak);
  return line.may_be_light && lightly ? plan::Level::light : plan::Level::short_of_hold;
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
      for (const double bends_N : bending_N(plan, clamps)) {
        out.back().closing_N += bends_N;
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
    return line.level != plan::Level::seat &&
           share * plan.weak_hand * line.mean_MPa >= line.hold_MPa;
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
    told->snug_holds = level_of(plan.lines[l], results[l], weak[l]) <= plan::Level::hold;
  }
}

}  // namespace planner::clamps::axis
