#include "planner/clamps/layout/clamp_ways_out.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "planner/base/side_words.h"
#include "planner/clamps/layout/strap_clamps.h"
#include "planner/tables/clamp.h"
#include "planner/work/rack_words.h"

namespace planner::clamps::layout {
namespace {

// Trouble, least first: wait for the first glue to set; go and ask somebody.
constexpr int kInGoes = 3, kFewStraps = 4, kBorrow = 5, kManyStraps = 6;
constexpr std::size_t kMostWays = 3;

std::vector<std::string> parts_held_by(const ClampProblem& problem, const StageAxis& round) {
  std::set<work::PartId> parts;
  for (const axis::FaceRef& f : round.plan.round.held) {
    parts.insert(problem.joints[f.joint].parts.begin(), problem.joints[f.joint].parts.end());
  }
  std::vector<std::string> names;
  for (const work::PartId part : parts) {
    names.push_back(problem.job.parts[part].name);
  }
  return names;
}

// The axes one after the other, the clamps coming free in between: works where each axis alone has
// its clamps. Not where an axis leaves a joint half pressed, as a mitre that two axes share.
std::optional<plan::WayOut> in_goes(const ClampProblem& problem, const StageAxes& stage) {
  std::vector<const StageAxis*> goes;
  std::set<axis::FaceRef> held;
  std::size_t most = 0;
  for (const StageAxis& round : stage.rounds) {
    if (round.plan.round.seat()) {
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
  return plan::WayOut{
      "glue in " + std::to_string(goes.size()) + " goes: first " +
          base::list_words(parts_held_by(problem, *goes.front())) +
          ", and the rest when their clamps are off",
      "holds every joint with " + work::count_of(static_cast<int>(most), "clamp") + " at a time",
      kInGoes, true};
}

struct Lacking {
  int count = 0;
  double opening_mm = 0;  // the widest of them
};

// What is missing, by kind.
std::map<std::string, Lacking> lacking_in(const StageAxes& stage) {
  std::map<std::string, Lacking> out;
  std::size_t next = 0;
  for (const StageAxis& round : stage.rounds) {
    for (const axis::ChosenClamp& clamp : round.plan.clamps) {
      if (!stage.owned[next++] && !round.plan.round.seat()) {
        Lacking& lacking = out[round.kind.kind];
        ++lacking.count;
        lacking.opening_mm =
            std::max(lacking.opening_mm, opening_mm(round, round.plan.sites[clamp.site]));
      }
    }
  }
  return out;
}

std::string to_borrow(const StageAxes& stage, base::Units units) {
  std::string out;
  for (const auto& [kind, lacking] : lacking_in(stage)) {
    out += (out.empty() ? "borrow " : " and ") +
           work::clamps_that_open(kind, lacking.count, lacking.opening_mm, units);
  }
  return out;
}

// Straps that go round in place of bars.
std::optional<plan::WayOut> with_straps(const ClampProblem& problem, const StageAxes& stage) {
  const auto band = band_to_borrow(problem, stage);
  if (!band) {
    return std::nullopt;
  }
  const int straps = static_cast<int>(band->height_mm.size());
  const int owned = std::min(straps - 1, straps_owned(problem, *band));
  const std::string drawn =
      owned > 0 ? "draw them round the work with the " + std::to_string(owned) + " on the rack"
                : std::string("draw ") + (straps == 1 ? "it" : "them") + " round the work";
  return plan::WayOut{
      "borrow " + work::count_of(straps - owned, "band clamp") + ", " +
          work::opening_text(band->strap_mm, problem.job.units) + " of strap or more, and " + drawn,
      "holds every joint, all corners at once" +
          (stage.reached ? ", with " + work::count_of(straps, "strap") + " in place of " +
                               work::count_of(stage.clamps, "clamp")
                         : std::string(", which bars don't")),
      !stage.reached || straps - owned < stage.missing ? kFewStraps : kManyStraps, true};
}

std::optional<plan::WayOut> borrow(const ClampProblem& problem, const StageAxes& before) {
  if (before.reached) {
    return plan::WayOut{to_borrow(before, problem.job.units),
                        "holds every joint with " + work::count_of(before.clamps, "clamp"), kBorrow,
                        true};
  }
  // The rack's kinds are too weak or too shallow: plan on what is sold.
  StageSetting setting;
  setting.off_the_rack = true;
  const StageAxes now = plan_clamps(problem, plan::Level::hold, setting);
  if (!now.reached) {
    return std::nullopt;
  }
  return plan::WayOut{to_borrow(now, problem.job.units),
                      "holds every joint with " + work::count_of(now.clamps, "clamp"), kBorrow,
                      true};
}

}  // namespace

std::vector<plan::WayOut> clamp_ways_out(const ClampProblem& problem, const StageAxes& stage) {
  std::vector<plan::WayOut> ways;
  for (std::optional<plan::WayOut> way :
       {in_goes(problem, stage), with_straps(problem, stage), borrow(problem, stage)}) {
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
