#include "planner/clamps/layout/clamp_ways_out.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "planner/clamps/axis/shaped_pads.h"
#include "planner/clamps/layout/strap_clamps.h"

namespace planner::clamps::layout {
namespace {

// Trouble, least first: wait for the first glue to set; go and ask somebody.
constexpr int kInGoes = 3, kFewStraps = 4, kBorrow = 5, kManyStraps = 6;
constexpr std::size_t kMostWays = 3;

std::vector<work::PartId> parts_held_by(const ClampProblem& problem, const StageAxis& round) {
  std::set<work::PartId> parts;
  for (const axis::FaceRef& f : round.plan.round.held) {
    parts.insert(problem.joints[f.joint].parts.begin(), problem.joints[f.joint].parts.end());
  }
  return {parts.begin(), parts.end()};
}

// The axes one after the other, the clamps coming free in between: works where each axis alone has
// its clamps. Not where an axis leaves a joint half pressed, as a mitre that two axes share.
std::optional<plan::WayOut> in_goes(const ClampProblem& problem, const StageAxes& stage) {
  std::vector<const StageAxis*> goes;
  std::set<axis::FaceRef> held;
  std::size_t most = 0;
  for (const StageAxis& round : stage.rounds) {
    if (round.plan.round.hands_do()) {
      continue;
    }
    if (!round.plan.reached || missing_alone(problem, round) > 0) {
      return std::nullopt;
    }
    for (const axis::FaceRef& face : round.plan.round.held) {
      if (!held.insert(face).second) {
        return std::nullopt;
      }
    }
    goes.push_back(&round);
    most = std::max(most, round.plan.clamps.size());
  }
  if (goes.size() < 2) {
    return std::nullopt;
  }
  return plan::WayOut{plan::GoesWay{static_cast<int>(goes.size()),
                                    parts_held_by(problem, *goes.front()), static_cast<int>(most)},
                      kInGoes, true};
}

// What is missing, by kind; it opens as far as the widest place asks.
std::vector<plan::ClampsToBorrow> lacking_in(const StageAxes& stage) {
  std::map<std::string, plan::ClampsToBorrow> by_kind;
  std::size_t next = 0;
  for (const StageAxis& round : stage.rounds) {
    for (const axis::ChosenClamp& clamp : round.plan.clamps) {
      if (!stage.owned[next++] && !round.plan.round.hands_do()) {
        plan::ClampsToBorrow& lacking = by_kind[round.kind.kind];
        lacking.kind = round.kind.kind;
        ++lacking.count;
        lacking.opening_mm =
            std::max(lacking.opening_mm, opening_mm(round.plan, round.plan.sites[clamp.site]));
      }
    }
  }
  std::vector<plan::ClampsToBorrow> out;
  for (auto& [kind, lacking] : by_kind) {
    out.push_back(std::move(lacking));
  }
  return out;
}

plan::WayOut borrowed(const StageAxes& stage) {
  return {plan::BorrowWay{lacking_in(stage), stage.clamps, false, 0}, kBorrow, true};
}

// Straps that go round in place of bars.
std::optional<plan::WayOut> with_straps(const ClampProblem& problem, const StageAxes& stage) {
  const auto band = band_to_borrow(problem, stage);
  if (!band) {
    return std::nullopt;
  }
  const int straps = static_cast<int>(band->height_mm.size());
  const int owned = std::min(straps - 1, straps_owned(problem, *band));
  return plan::WayOut{plan::StrapsWay{straps, owned, band->strap_mm,
                                      stage.reached ? std::optional(stage.clamps) : std::nullopt},
                      !stage.reached || straps - owned < stage.missing ? kFewStraps : kManyStraps,
                      true};
}

std::optional<plan::WayOut> borrow(const ClampProblem& problem, const StageAxes& before,
                                   axis::AxisCache& cache) {
  if (before.reached) {
    return borrowed(before);
  }
  // The rack's kinds are too weak or too shallow: plan on what is sold.
  StageSetting setting;
  setting.off_the_rack = true;
  const StageAxes now = plan_clamps(problem, plan::Level::hold, setting, cache);
  return now.reached ? std::optional(borrowed(now)) : std::nullopt;
}

}  // namespace

std::vector<plan::WayOut> clamp_ways_out(const ClampProblem& problem, const StageAxes& stage,
                                         axis::AxisCache& cache) {
  std::vector<plan::WayOut> ways;
  for (std::optional<plan::WayOut> way :
       {in_goes(problem, stage), with_straps(problem, stage), borrow(problem, stage, cache)}) {
    if (way) {
      ways.push_back(std::move(*way));
    }
  }
  std::stable_sort(ways.begin(), ways.end(), [](const plan::WayOut& a, const plan::WayOut& b) {
    return a.trouble < b.trouble;
  });
  ways.resize(std::min(ways.size(), kMostWays));
  return ways;
}

}  // namespace planner::clamps::layout
