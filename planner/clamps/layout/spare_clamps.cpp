#include "planner/clamps/layout/spare_clamps.h"

#include <algorithm>
#include <cmath>

#include "planner/clamps/axis/clamps_at.h"
#include "planner/clamps/axis/fewest_on_axis.h"
#include "planner/work/step_seconds.h"

namespace planner::clamps::layout {
namespace {

constexpr double kWorthTelling = 1.1;  // times the least pressure
constexpr std::size_t kMostTold = 3;
constexpr double kSame = 1 - 1e-6;  // of a pressure: twin lines differ by rounding only

std::vector<int> left_on(const work::Shop& shop, const StageAxes& stage) {
  std::vector<int> left;
  for (const work::OwnedClamp& row : shop.clamps) {
    left.push_back(row.count);
  }
  for (const auto& row : stage.owned) {
    if (row) {
      --left[*row];
    }
  }
  return left;
}

struct Least {
  double MPa = 0;
  work::JointId joint = 0;
};

Least least_of(const axis::AxisClamps& plan, std::span<const axis::ChosenClamp> clamps) {
  const std::vector<axis::LineResult> results = press(plan, clamps);
  Least least{1e300, 0};
  for (std::size_t l = 0; l < plan.held_lines; ++l) {
    if (results[l].profile.min_MPa < kSame * least.MPa) {
      least = {results[l].profile.min_MPa, plan.lines[l].joint};
    }
  }
  return least;
}

// What all places together lack of full pressure, with every spring holding.
double lack_of(const count::PressTable& table, std::span<const axis::ChosenClamp> clamps) {
  std::vector<std::size_t> sites;
  std::vector<double> forces;
  for (const axis::ChosenClamp& c : clamps) {
    sites.push_back(c.site);
    forces.push_back(c.force_N);
  }
  return axis::linear_lack(table, {sites, forces});
}

// The free site that takes most of that away.
std::optional<axis::ChosenClamp> best_site(const axis::AxisClamps& plan,
                                           const count::PressTable& table,
                                           std::span<const axis::ChosenClamp> clamps,
                                           double force_N) {
  std::optional<axis::ChosenClamp> best;
  double least = lack_of(table, clamps);
  for (std::size_t s = 0; s < plan.sites.size(); ++s) {
    const bool taken = std::any_of(clamps.begin(), clamps.end(), [&](const axis::ChosenClamp& c) {
      return c.site == s ||
             pads_collide(plan.sites[c.site], plan.sites[s], plan.tracks, plan.round.axis);
    });
    if (taken) {
      continue;
    }
    std::vector<axis::ChosenClamp> with(clamps.begin(), clamps.end());
    with.push_back({s, std::min(force_N, plan.sites[s].limit_N)});
    const double lack = lack_of(table, with);
    if (lack < least - 1e-9) {
      least = lack;
      best = with.back();
    }
  }
  return best;
}

std::optional<std::size_t> row_for(const StageAxis& round, const axis::ChosenClamp& clamp,
                                   const work::Shop& shop, const std::vector<int>& left) {
  const ClampWanted wanted = wanted_at(round, clamp);
  for (std::size_t r = 0; r < left.size(); ++r) {
    if (left[r] > 0 && serves(shop.clamps[r], wanted)) {
      return r;
    }
  }
  return std::nullopt;
}

geometry::Point corner_of(const ClampProblem& problem) {
  geometry::Point corner{1e300, 1e300, 1e300};
  for (const work::PartId part : problem.parts) {
    const geometry::Point lo = geometry::bounds(problem.solids[part]).lo;
    corner = {std::min(corner.x, lo.x), std::min(corner.y, lo.y), std::min(corner.z, lo.z)};
  }
  return corner;
}

}  // namespace

std::vector<SpareClamps> spare_clamps(const ClampProblem& problem, const StageAxes& stage) {
  std::vector<SpareClamps> out;
  if (problem.shop.unlimited_rack || base::stop_requested(problem.stop)) {
    return out;
  }
  const std::vector<int> left = left_on(problem.shop, stage);
  for (const StageAxis& round : stage.rounds) {
    const axis::AxisClamps& plan = round.plan;
    if (plan.round.seat() || !plan.reached || plan.model == nullptr ||
        on_face(plan.packing.padding) || cambered(plan) ||
        true_share(plan, need_for_full(plan)) >= 1) {
      continue;
    }
    const count::PressTable table = plan.model->table(need_for_full(plan), axis::kApart_mm).table;
    const Least before = least_of(plan, plan.clamps);
    SpareClamps spare{plan.round.axis, {}, {}, before.joint, before.MPa, before.MPa};
    std::vector<axis::ChosenClamp> with = plan.clamps;
    std::vector<int> still = left;
    while (spare.at.size() < kMostTold && spare.after_MPa <= kWorthTelling * before.MPa) {
      const auto site = best_site(plan, table, with, hardest_N(plan.clamps));
      const auto row = site ? row_for(round, *site, problem.shop, still) : std::nullopt;
      if (!row) {
        break;
      }
      --still[*row];
      with.push_back(*site);
      spare.at.push_back(plan.sites[site->site].at);
      spare.rows.push_back(*row);
      spare.after_MPa = least_of(plan, with).MPa;
    }
    if (spare.after_MPa > kWorthTelling * before.MPa) {
      out.push_back(std::move(spare));
    }
  }
  return out;
}

plan::SpareClampsNote spare_note(const SpareClamps& spare, const ClampProblem& problem) {
  const geometry::Point corner = corner_of(problem);
  plan::SpareClampsNote note{spare.axis, {}, spare.joint, spare.before_MPa, spare.after_MPa, 0};
  for (std::size_t i = 0; i < spare.at.size(); ++i) {
    const std::string& kind = problem.shop.clamps[spare.rows[i]].kind;
    const geometry::Direction from = spare.at[i] - corner;
    note.places.push_back({kind, {from.x, from.y, from.z}});
    note.more_s += snug_seconds(kind, problem.shop.pace) + problem.shop.pace.tighten_s;
  }
  return note;
}

}  // namespace planner::clamps::layout
