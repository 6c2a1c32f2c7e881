#include "planner/stage_rounds.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "planner/clamp_rounds.h"
#include "planner/crush.h"

namespace planner {
namespace {

using geometry::Direction;

constexpr double kHalfInch_mm = 12.7;

// To the nearest edge that a bar can pass.
double reach_mm(const ClampSite& site) {
  return *std::min_element(site.reach_mm.begin(), site.reach_mm.end()) + kBarClears_mm;
}

using Rounds = std::vector<const StageRound*>;
using Owned = std::vector<std::optional<std::size_t>>;

std::vector<ClampWanted> wanted_by(const Rounds& rounds) {
  std::vector<ClampWanted> wanted;
  for (const StageRound* round : rounds) {
    for (const ChosenClamp& c : round->plan.clamps) {
      const ClampSite& site = round->plan.sites[c.site];
      wanted.push_back({opening_mm(*round, site), reach_mm(site), c.force_N, round->kind.jaw_mm,
                        round->plan.round.seat(), round->kind.kind});
    }
  }
  return wanted;
}

class StagePlanner {
 public:
  StagePlanner(const ClampProblem& problem, const StageSetting& setting)
      : problem_(problem), setting_(setting), work_(work_of(problem.parts, problem.solids)) {}

  StageRounds run(Level goal) {
    for (const RoundAxis& axis : round_axes(problem_.joints, problem_.stage_joints, problem_.job)) {
      rounds_.push_back(best_round(axis, all()));
    }
    if (goal == Level::full) {
      press_fully();
    }
    StageRounds out;
    out.missing = missing(all());
    const std::vector<ClampWanted> wanted = wanted_by(all());
    out.owned = problem_.shop.unlimited_rack ? Owned(wanted.size())
                                             : assign_clamps(wanted, problem_.shop.clamps);
    for (const StageRound& round : rounds_) {
      out.reached &= round.plan.reached || round.plan.round.seat();
      out.clamps += round.plan.round.seat() ? 0 : static_cast<int>(round.plan.clamps.size());
    }
    if (!problem_.shop.unlimited_rack) {
      leave_to_hands(out.owned);
    }
    out.rounds = std::move(rounds_);
    out.work = std::move(work_);
    return out;
  }

 private:
  Rounds all() const { return all_but(nullptr); }
  Rounds all_but(const StageRound* one) const {
    Rounds out;
    for (const StageRound& round : rounds_) {
      if (&round != one) {
        out.push_back(&round);
      }
    }
    return out;
  }

  // Clamps that press and that the rack has not.
  int missing(const Rounds& rounds) const {
    if (problem_.shop.unlimited_rack) {
      return 0;
    }
    const std::vector<ClampWanted> wanted = wanted_by(rounds);
    const Owned owned = assign_clamps(wanted, problem_.shop.clamps);
    int lacking = 0;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      lacking += !owned[i] && !wanted[i].only_seats ? 1 : 0;
    }
    return lacking;
  }

  // Shoulders that the rack hasn't all the clamps for are closed by hand.
  void leave_to_hands(Owned& owned) {
    std::size_t next = 0;
    for (StageRound& round : rounds_) {
      const auto first = owned.begin() + static_cast<std::ptrdiff_t>(next);
      const auto last = first + static_cast<std::ptrdiff_t>(round.plan.clamps.size());
      if (round.plan.round.seat() && std::find(first, last, std::nullopt) != last) {
        owned.erase(first, last);
        round.plan.clamps.clear();
      }
      next += round.plan.clamps.size();
    }
  }

  // A round and what the rack lacks for it beside the others'.
  struct Trial {
    StageRound round;
    int lacking = 0;
    bool mends() const { return round.plan.reached && lacking == 0; }
    bool better_than(const Trial& other) const {
      return round.plan.reached != other.round.plan.reached ? round.plan.reached
                                                            : lacking < other.lacking;
    }
  };

  // The usual stock under the jaws; thicker where that doesn't do, or where it saves clamps: a caul
  // glued up of two boards is less trouble than a clamp, and quicker set.
  StageRound best_round(const RoundAxis& axis, const Rounds& others) const {
    Trial best = best_trial(axis, Level::hold, setting_.thick_mm, others);
    for (const double thick : cut_sizes(problem_.job.units).thick_mm) {
      if (axis.seat() || (best.mends() && thick > 2 * setting_.thick_mm + 1)) {
        break;
      }
      if (thick > setting_.thick_mm + 1) {
        Trial deeper = best_trial(axis, Level::hold, thick, others);
        const bool saves = deeper.round.plan.clamps.size() < best.round.plan.clamps.size();
        if (deeper.mends() && (!best.mends() || saves)) {
          best = std::move(deeper);
        }
      }
    }
    return std::move(best.round);
  }

  // Planned on each kind in turn, until the rack has all its clamps beside those of `others`.
  Trial best_trial(const RoundAxis& axis, Level level, double thick_mm,
                   const Rounds& others) const {
    std::optional<Trial> best;
    const double widest = extent_mm(axis.axis) + 2 * thick_mm + kHalfInch_mm;
    std::vector<PlannedKind> kinds = kinds_that_open(problem_.shop, widest);
    if (kinds.empty() || setting_.off_the_rack) {
      kinds = kinds_that_open(Shop{}, widest);
    }
    for (const PlannedKind& kind : kinds) {
      Trial trial{plan(axis, kind, level, thick_mm)};
      Rounds with = others;
      with.push_back(&trial.round);
      trial.lacking = missing(with);
      if (!best || trial.better_than(*best)) {
        best = std::move(trial);
      }
      if (best->mends()) {
        break;
      }
    }
    return std::move(*best);
  }

  StageRound plan(const RoundAxis& axis, const PlannedKind& kind, Level level,
                  double thick_mm) const {
    RoundSetting setting;
    setting.jaw_mm = kind.jaw_mm;
    setting.jaw_high_mm = kind.jaw_high_mm;
    setting.thick_mm = thick_mm;
    setting.force_N = kind.force_N;
    setting.throat_mm = kind.throat_mm;
    if (level == Level::full && kind.count > 0) {
      setting.most = kind.count;
    }
    if (problem_.prove) {
      setting.effort = kNoLimit;
    }
    const RoundQuestion question{problem_.job, problem_.joints, work_,
                                 axis,         problem_.glue,   setting};
    return {plan_round(question, level), kind, thick_mm};
  }

  // Across the whole work; where a clamp stands it may be less.
  double extent_mm(const Direction& axis) const {
    double lo = std::numeric_limits<double>::max(), hi = std::numeric_limits<double>::lowest();
    for (const geometry::Solid& solid : work_.solids) {
      const geometry::Box box = geometry::bounds(solid);
      const geometry::Point middle = box.lo + 0.5 * (box.hi - box.lo);
      const Direction half = 0.5 * (box.hi - box.lo);
      const double reach =
          std::abs(half.x * axis.x) + std::abs(half.y * axis.y) + std::abs(half.z * axis.z);
      lo = std::min(lo, dot(middle, axis) - reach);
      hi = std::max(hi, dot(middle, axis) + reach);
    }
    return hi - lo;
  }

  // Axis by axis, where the rack has what it takes.
  void press_fully() {
    int lacking = missing(all());
    for (StageRound& round : rounds_) {
      if (round.plan.round.seat()) {
        continue;
      }
      Rounds with = all_but(&round);
      Trial full = best_trial(round.plan.round, Level::full, round.thick_mm, with);
      if (full.round.plan.reached && full.lacking <= lacking) {
        round = std::move(full.round);
        lacking = full.lacking;
      }
    }
  }

  static constexpr SearchEffort kNoLimit{1'000'000, 100'000'000};
  const ClampProblem& problem_;
  StageSetting setting_;
  Work work_;
  std::vector<StageRound> rounds_;
};

}  // namespace

double opening_mm(const StageRound& round, const ClampSite& site) {
  return site.span_mm + 2 * round.thick_mm + kHalfInch_mm;
}

StageRounds plan_rounds(const ClampProblem& problem, Level goal, const StageSetting& setting) {
  return StagePlanner(problem, setting).run(goal);
}

}  // namespace planner
