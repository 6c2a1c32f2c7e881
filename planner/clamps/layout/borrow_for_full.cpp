#include "planner/clamps/layout/borrow_for_full.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "planner/clamps/axis/fewest_on_axis.h"
#include "planner/clamps/axis/shaped_pads.h"
#include "planner/work/step_seconds.h"

namespace planner::clamps::layout {
namespace {

constexpr int kAsPlanned = 0, kBorrowed = 5;  // trouble
constexpr int kPlenty = 40;                 // more of each row than a bench has room for

// Of a row of the rack, what all axes use and how far the widest place on it opens.
struct Used {
  int count = 0;
  double opening_mm = 0;
};

std::map<std::size_t, Used> used_in(const StageAxes& stage) {
  std::map<std::size_t, Used> out;
  std::size_t next = 0;
  for (const StageAxis& round : stage.rounds) {
    for (const axis::ChosenClamp& clamp : round.plan.clamps) {
      if (const auto row = stage.owned[next++]) {
        Used& used = out[*row];
        ++used.count;
        used.opening_mm =
            std::max(used.opening_mm, opening_mm(round.plan, round.plan.sites[clamp.site]));
      }
    }
  }
  return out;
}

// What a plan that holds and isn't full comes to.
plan::WayOut hold_for_full(const ClampProblem& problem) {
  return {plan::HoldWay{problem.glue.hold_MPa}, kAsPlanned, false};
}

}  // namespace

bool presses_fully(const StageAxes& stage) {
  return std::all_of(stage.rounds.begin(), stage.rounds.end(), [](const StageAxis& round) {
    return round.plan.round.seat() ||
           true_share(round.plan, need_for_full(round.plan)) >= axis::kNearlyOne;
  });
}

std::optional<FullerRack> borrow_for_full(const ClampProblem& problem, const StageAxes& stage,
                                          axis::AxisCache& cache) {
  work::Shop more = problem.shop;
  for (work::OwnedClamp& row : more.clamps) {
    row.count += row.count > 0 ? kPlenty : 0;
  }
  const ClampProblem richer{problem.job,    more,          problem.solids,
                            problem.joints, problem.parts, problem.stage_joints,
                            problem.glue,   problem.prove, problem.stop};
  const StageAxes full = plan_clamps(richer, plan::Level::full, {}, cache);
  if (full.missing > 0 || !full.reached || !presses_fully(full)) {
    return std::nullopt;
  }
  plan::BorrowWay borrow{{}, full.clamps, true, 0};
  std::map<std::size_t, Used> now = used_in(stage);
  for (const auto& [row, used] : used_in(full)) {
    const work::OwnedClamp& owned = problem.shop.clamps[row];
    const int lacking = used.count - owned.count;
    if (lacking > 0) {
      borrow.lacking.push_back({owned.kind, lacking, used.opening_mm});
    }
    borrow.more_s += std::max(0, used.count - now[row].count) *
                     (snug_seconds(owned.kind, problem.shop.pace) + problem.shop.pace.tighten_s) /
                     std::max(1, problem.shop.people);
  }
  if (borrow.lacking.empty()) {
    return std::nullopt;
  }
  const double more_s = borrow.more_s;
  return FullerRack{hold_for_full(problem), {std::move(borrow), kBorrowed, false}, more_s};
}

}  // namespace planner::clamps::layout
