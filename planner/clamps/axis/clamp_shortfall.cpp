#include "planner/clamps/axis/clamp_shortfall.h"

#include <algorithm>
#include <cmath>

#include "planner/clamps/axis/fewest_on_axis.h"

namespace planner::clamps::axis {
namespace {

constexpr double kRounding = 1e-6;

}  // namespace

geometry::Direction across_of(const pressure::GlueLine& line, const geometry::Direction& axis) {
  return geometry::unit(cross(axis, line.along));
}

std::vector<pressure::OffsetForce> forces_beside(const AxisClamps& plan,
                                                 std::span<const ChosenClamp> clamps,
                                                 std::size_t l) {
  std::vector<pressure::OffsetForce> out;
  const geometry::Direction side = across_of(plan.lines[l], plan.round.axis);
  for (const ChosenClamp& c : clamps) {
    const ClampSite& site = plan.sites[c.site];
    const bool presses = std::any_of(site.presses.begin(), site.presses.end(),
                                     [l](const PressedAt& p) { return p.line == l; });
    out.push_back({presses ? c.force_N : 0, dot(site.at - plan.lines[l].start, side)});
  }
  return out;
}

bool AxisState::good() const {
  return share >= kNearlyOne && crush <= 1 + kRounding && off <= 1 + kRounding;
}

std::vector<double> offsets_mm(const AxisClamps& plan, std::span<const ChosenClamp> clamps) {
  std::vector<double> out;
  for (std::size_t l = 0; l < plan.lines.size(); ++l) {
    const auto forces = forces_beside(plan, clamps, l);
    const bool any = std::any_of(forces.begin(), forces.end(),
                                 [](const pressure::OffsetForce& f) { return f.force_N > 0; });
    out.push_back(any ? resultant_offset_mm(forces) : 0);
  }
  return out;
}

AxisState state_of(const AxisClamps& plan) {
  AxisState state;
  state.share = plan.model ? true_share(plan, need_to_hold(plan)) : 1;
  for (const ChosenClamp& c : plan.clamps) {
    state.crush = std::max(state.crush, c.force_N / plan.sites[c.site].bears_N);
  }
  const std::vector<double> offsets = offsets_mm(plan, plan.clamps);
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    state.off = std::max(state.off, std::abs(offsets[l]) / (plan.lines[l].across_mm / 6));
  }
  return state;
}

}  // namespace planner::clamps::axis
