#include "planner/clamp_ways_out.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "planner/crush.h"
#include "planner/quantity_text.h"
#include "planner/tables/clamp.h"

namespace planner {
namespace {

// Trouble, least first: cut other pads; go and ask somebody.
constexpr int kCutPads = 1, kBorrow = 5;
constexpr std::size_t kMostWays = 3;

std::string count_of(int n, const std::string& one) {
  return std::to_string(n) + " " + one + (n == 1 ? "" : "s");
}

std::string in_stock(double mm, Units units) {
  return short_text(mm, units);
}

bool works(const StageRounds& stage) {
  return stage.reached && stage.missing == 0;
}

std::string gain_of(const StageRounds& now, const StageRounds& before) {
  if (works(now)) {
    return "holds every joint with " + count_of(now.clamps, "clamp") + ", all on the rack";
  }
  return count_of(now.missing, "clamp") + " short instead of " + std::to_string(before.missing);
}

// The thinnest stock that mends it, else the one that saves most.
std::optional<WayOut> deeper_pads(const ClampProblem& problem, const StageRounds& before) {
  std::optional<WayOut> best;
  int fewest = before.missing;
  const StageSetting usual;
  for (const double thick : cut_sizes(problem.job.units).thick_mm) {
    if (thick < usual.thick_mm + 1) {
      continue;
    }
    StageSetting setting;
    setting.thick_mm = thick;
    const StageRounds now = plan_rounds(problem, Level::hold, setting);
    if ((now.reached && !before.reached) ||
        (now.reached == before.reached && now.missing < fewest)) {
      fewest = now.missing;
      best = WayOut{"cut pads and strips from " + in_stock(thick, problem.job.units) + " stock",
                    gain_of(now, before), kCutPads, works(now)};
    }
    if (best && best->mends) {
      break;
    }
  }
  return best;
}

struct Lacking {
  int count = 0;
  double opening_mm = 0;  // the widest of them
};

// What is missing, by kind.
std::map<std::string, Lacking> lacking_in(const StageRounds& stage) {
  std::map<std::string, Lacking> out;
  std::size_t next = 0;
  for (const StageRound& round : stage.rounds) {
    for (const ChosenClamp& clamp : round.plan.clamps) {
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

// Rounded up to what one asks for: whole millimetres, quarter inches.
std::string opening_text(double mm, Units units) {
  const double step = units == Units::inch ? 25.4 / 4 : 1;
  return short_text(step * std::ceil(mm / step - 1e-6), units);
}

std::string to_borrow(const StageRounds& stage, Units units) {
  std::string out;
  for (const auto& [kind, lacking] : lacking_in(stage)) {
    const ClampKind* row = find_clamp_kind(kind);
    out += (out.empty() ? "borrow " : " and ") + count_of(lacking.count, "clamp") + " (" +
           (row != nullptr ? row->name : kind) + ") that open" + (lacking.count == 1 ? "s " : " ") +
           opening_text(lacking.opening_mm, units) + " or more";
  }
  return out;
}

std::optional<WayOut> borrow(const ClampProblem& problem, const StageRounds& before) {
  if (before.reached) {
    return WayOut{to_borrow(before, problem.job.units),
                  "holds every joint with " + count_of(before.clamps, "clamp"), kBorrow, true};
  }
  // The rack's kinds are too weak or too shallow: plan on what is sold.
  StageSetting setting;
  setting.off_the_rack = true;
  const StageRounds now = plan_rounds(problem, Level::hold, setting);
  if (!now.reached) {
    return std::nullopt;
  }
  return WayOut{to_borrow(now, problem.job.units),
                "holds every joint with " + count_of(now.clamps, "clamp"), kBorrow, true};
}

}  // namespace

std::vector<WayOut> clamp_ways_out(const ClampProblem& problem, const StageRounds& stage) {
  std::vector<WayOut> ways;
  for (std::optional<WayOut> way : {deeper_pads(problem, stage), borrow(problem, stage)}) {
    if (way) {
      ways.push_back(std::move(*way));
    }
  }
  std::stable_sort(ways.begin(), ways.end(),
                   [](const WayOut& a, const WayOut& b) { return a.trouble < b.trouble; });
  ways.resize(std::min(ways.size(), kMostWays));
  return ways;
}

}  // namespace planner
