#include "planner/clamps/layout/stage_clamps.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "planner/clamps/axis/pressing_axes.h"
#include "planner/clamps/axis/shaped_pads.h"
#include "planner/clamps/axis/wide_face_clamps.h"
#include "planner/clamps/layout/clamp_clearance.h"
#include "planner/pressure/crush.h"

namespace planner::clamps::layout {
namespace {

using geometry::Direction;

using Rounds = std::vector<const StageAxis*>;
using Owned = std::vector<std::optional<std::size_t>>;

// Of each track a number for the clamps on it. Tracks with a single clamp, as the two sides of a
// frame, face one another: they share one.
std::vector<int> line_of_track(const axis::AxisClamps& plan, int& next) {
  std::vector<int> count(plan.tracks.size(), 0);
  for (const axis::ChosenClamp& c : plan.clamps) {
    ++count[plan.sites[c.site].track];
  }
  const int facing = next++;
  std::vector<int> out;
  for (const int n : count) {
    out.push_back(n == 1 ? facing : next++);
  }
  return out;
}

std::vector<ClampWanted> wanted_by(const Rounds& rounds) {
  std::vector<ClampWanted> wanted;
  int next_line = 0;
  for (const StageAxis* round : rounds) {
    const std::vector<int> line = line_of_track(round->plan, next_line);
    for (const axis::ChosenClamp& c : round->plan.clamps) {
      wanted.push_back(wanted_at(*round, c));
      wanted.back().line = line[round->plan.sites[c.site].track];
    }
  }
  return wanted;
}

// Clamps that press and that the rack has not.
int missing_of(const Rounds& rounds, const work::Shop& shop) {
  if (shop.unlimited_rack) {
    return 0;
  }
  const std::vector<ClampWanted> wanted = wanted_by(rounds);
  const Owned owned = assign_clamps(wanted, shop.clamps);
  int lacking = 0;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    lacking += !owned[i] && !wanted[i].only_seats ? 1 : 0;
  }
  return lacking;
}

// Where no face slopes.
double opening_for(double span_mm, double thick_mm) {
  return span_mm + 2 * thick_mm + axis::kToGetOn_mm;
}

class StagePlanner {
 public:
  StagePlanner(const ClampProblem& problem, const StageSetting& setting, axis::AxisCache& cache)
      : problem_(problem),
        setting_(setting),
        work_(pressure::work_of(problem.parts, problem.solids)),
        cache_(cache) {
    cache_.begin();
  }

  // First what holds, or what lightly does; then, where that is asked, what presses fully.
  StageAxes run(plan::Level goal) {
    level_ = goal == plan::Level::full ? plan::Level::hold : goal;
    for (const axis::RoundAxis& axis :
         axis::round_axes(problem_.joints, problem_.stage_joints, problem_.job)) {
      rounds_.push_back(best_round(axis, all()));
    }
    if (goal == plan::Level::full) {
      part_bars();
      press_fully();
    }
    StageAxes out;
    out.missing = missing_of(all(), problem_.shop);
    out.owned = owned_by(all());
    for (const StageAxis& round : rounds_) {
      out.reached &= round.plan.reached || round.plan.round.hands_do();
      out.clamps += round.plan.round.hands_do() ? 0 : static_cast<int>(round.plan.clamps.size());
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
  Rounds all_but(const StageAxis* one) const {
    Rounds out;
    for (const StageAxis& round : rounds_) {
      if (&round != one) {
        out.push_back(&round);
      }
    }
    return out;
  }

  // Shoulders that the rack hasn't all the clamps for are closed by hand, where that does.
  void leave_to_hands(Owned& owned) {
    std::size_t next = 0;
    for (StageAxis& round : rounds_) {
      const auto first = owned.begin() + static_cast<std::ptrdiff_t>(next);
      const auto last = first + static_cast<std::ptrdiff_t>(round.plan.clamps.size());
      if (round.plan.round.hands_do() && std::find(first, last, std::nullopt) != last) {
        owned.erase(first, last);
        round.to_hands = static_cast<int>(round.plan.clamps.size());
        for (const axis::ChosenClamp& c : round.plan.clamps) {
          round.to_hands_opening_mm =
              std::max(round.to_hands_opening_mm, opening_mm(round.plan, round.plan.sites[c.site]));
        }
        round.plan.clamps.clear();
      }
      next += round.plan.clamps.size();
    }
  }

  // A round and what the rack lacks for it beside the others'.
  struct Trial {
    StageAxis round;
    int lacking = 0;
    bool mends() const { return round.plan.reached && lacking == 0; }
    bool reached_better_than(const Trial& other) const {
      return round.plan.reached != other.round.plan.reached ? round.plan.reached
                                                            : lacking < other.lacking;
    }
    // Then the fewest clamps, and of as many the gentlest. Of equals the first stays: the least kind.
    bool better_than(const Trial& other) const {
      if (round.plan.reached != other.round.plan.reached || lacking != other.lacking) {
        return reached_better_than(other);
      }
      const auto rank = [](const Trial& t) {
        return std::pair(t.round.plan.clamps.size(),
                         t.round.kind.springs
                             ? plan::Strength::gentle
                             : strength_of(hardest_N(t.round.plan.clamps), t.round.kind.force_N));
      };
      return mends() && rank(*this) < rank(other);
    }
  };

  // Planned on each kind in turn; the fewest clamps that the rack has beside those of `others`, then
  // the gentlest, then the least kind. With the usual stock under the jaws, or thicker where that
  // doesn't do or saves clamps: a caul glued up of two boards is less trouble than a clamp, and quicker
  // set.
  StageAxis best_round(const axis::RoundAxis& axis, const Rounds& others) {
    const std::vector<double> stock =
        axis.seat() ? std::vector{setting_.thick_mm} : stock_from(setting_.thick_mm);
    return std::move(best_trial(axis, level_, stock, others).round);
  }

  std::vector<double> stock_from(double least_mm) const {
    std::vector<double> stock{least_mm};
    for (const double thick : pressure::cut_sizes(problem_.job.units).thick_mm) {
      if (thick > least_mm + 1) {
        stock.push_back(thick);
      }
    }
    return stock;
  }

  // Where the rack hasn't the clamps, cauls with a camber may save the few that it lacks.
  Trial best_trial(const axis::RoundAxis& axis, plan::Level level,
                   const std::vector<double>& stock_mm, const Rounds& others) {
    Trial best = best_trial(axis, level, stock_mm, others, {});
    if (best.mends() || enough_looked_at()) {
      return best;
    }
    // The rack is short: harder than firm, and for a clamp saved a caul planed; of the two the one
    // that does by itself.
    Trial most = best_trial(axis, level, stock_mm, others, {.camber_for_one = true, .hard = true});
    for (const Means& means : {Means{.camber_for_one = true}, Means{.hard = true}}) {
      if (most.mends() && !best.mends()) {
        best = best_trial(axis, level, stock_mm, others, means);
      }
    }
    return most.reached_better_than(best) ? std::move(most) : std::move(best);
  }

  struct Means {
    bool camber_for_one = false;  // a camber is planed for one clamp saved, not only for a third
    bool hard = false;            // drawn with all that people give
  };

  Trial best_trial(const axis::RoundAxis& axis, plan::Level level, std::vector<double> stock_mm,
                   const Rounds& others, const Means& means) {
    std::optional<Trial> best;
    const double span =
        extent_mm(axis.axis) +
        press_backing(problem_.job, problem_.joints, axis.held).between_mm();
    while (!stock_mm.empty() && (!best || !good_enough(*best))) {
      for (const PlannedKind& kind : kinds_for(span, stock_mm.back())) {
        if (best && best->mends() && (kind.several || problem_.shop.unlimited_rack)) {
          break;  // several kinds on one axis draw unlike; a first choice is one
        }
        Trial trial{plan(axis, kind, level, stock_mm, means)};
        Rounds with = others;
        with.push_back(&trial.round);
        trial.lacking = missing_of(with, problem_.shop);
        if (!best || trial.better_than(*best)) {
          best = std::move(trial);
        }
        if (enough_looked_at() || (axis.seat() && best->mends())) {
          break;
        }
      }
      if (!axis.seat() && !openings_bind(best->round.plan, span, stock_mm)) {
        break;  // thinner blocks and cauls spread it no better
      }
      stock_mm.pop_back();
    }
    return std::move(*best);
  }

  // Some row would serve with less under its jaws, or another kind.
  bool openings_bind(const axis::AxisClamps& plan, double span_mm,
                     std::span<const double> stock_mm) const {
    const double widest = opening_for(span_mm, stock_mm.back());
    double narrowest = opening_for(span_mm, stock_mm.front());
    for (const axis::ClampSite& site : plan.sites) {
      narrowest = std::min(narrowest, opening_for(site.span_mm + plan.backing.between_mm(), stock_mm.front()));
    }
    if (problem_.shop.unlimited_rack || setting_.off_the_rack) {
      return kinds_that_open(work::Shop{}, widest).size() !=
             kinds_that_open(work::Shop{}, narrowest).size();
    }
    return std::any_of(problem_.shop.clamps.begin(), problem_.shop.clamps.end(),
                       [&](const work::OwnedClamp& row) {
                         return row.opening.mm() >= narrowest && row.opening.mm() < widest;
                       });
  }

  // Nobody waits for more, or all that a layout may take is spent.
  bool enough_looked_at() const {
    return cache_.spent() || base::stop_requested(problem_.stop);
  }

  bool good_enough(const Trial& trial) const {
    return trial.mends() || enough_looked_at();
  }

  std::vector<PlannedKind> kinds_for(double span_mm, double thick_mm) const {
    const double opening = opening_for(span_mm, thick_mm);
    std::vector<PlannedKind> kinds = kinds_that_open(problem_.shop, opening);
    if (kinds.empty() || setting_.off_the_rack) {
      kinds = kinds_that_open(work::Shop{}, opening);
    }
    return kinds;
  }

  StageAxis plan(const axis::RoundAxis& axis, const PlannedKind& kind, plan::Level level,
                 std::span<const double> stock_mm, const Means& means) {
    axis::AxisSetting setting;
    setting.few = means.camber_for_one;
    setting.light_share = setting_.light_share;
    setting.kind = kind;
    if (means.hard || level == plan::Level::full) {
      setting.kind.drawn = 1;
    }
    if (kind.wooden_jaws) {
      setting.packings.push_back({axis::Padding::blocks, 0});
    }
    for (const double thick : stock_mm) {
      setting.packings.push_back({axis::Padding::blocks, thick});
      setting.packings.push_back({axis::Padding::strips, thick});
    }
    for (const double thick : stock_mm) {  // last: only where nothing straight does as well
      setting.packings.push_back({axis::Padding::cambered, thick});
    }
    if (level == plan::Level::full && kind.count > 0) {
      setting.kind.most = kind.count;
    }
    if (problem_.prove) {
      setting.effort.work = kNoLimit;
    }
    setting.effort.stop = problem_.stop;
    const axis::AxisQuestion question{problem_.job, problem_.joints, work_,
                                      axis,         problem_.glue,   setting};
    StageAxis out{plan_axis(question, level, cache_), kind, 0, 0};
    out.kind.drawn = setting.kind.drawn;
    return out;
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

  // Kinds that keep the bars of what holds clear, for the axes pressed fully to be measured by.
  void part_bars() {
    StageAxes holding;
    holding.missing = missing_of(all(), problem_.shop);
    holding.owned = owned_by(all());
    holding.rounds = std::move(rounds_);
    clear_bars(problem_, holding);
    rounds_ = std::move(holding.rounds);
  }

  // Axis by axis, where the rack has what it takes and the bars stay as clear as they were.
  void press_fully() {
    int lacking = missing_of(all(), problem_.shop), clashes = clashes_of(all());
    for (StageAxis& round : rounds_) {
      if (round.plan.round.seat()) {
        continue;
      }
      const double thick = std::max(setting_.thick_mm, round.plan.packing.thick_mm);
      Trial full = best_trial(round.plan.round, plan::Level::full, {thick}, all_but(&round));
      if (!full.round.plan.reached) {
        full = best_trial(round.plan.round, plan::Level::full, stock_from(thick), all_but(&round));
      }
      if (!full.round.plan.reached || full.lacking > lacking) {
        continue;
      }
      std::swap(round, full.round);
      const int now = clashes_of(all());
      if (now > clashes) {
        std::swap(round, full.round);
        continue;
      }
      clashes = now;
      lacking = full.lacking;
    }
  }

  int clashes_of(const Rounds& rounds) const {
    return bar_clashes(problem_.shop, rounds, owned_by(rounds));
  }
  Owned owned_by(const Rounds& rounds) const {
    const std::vector<ClampWanted> wanted = wanted_by(rounds);
    return problem_.shop.unlimited_rack ? Owned(wanted.size())
                                        : assign_matched(wanted, problem_.shop.clamps);
  }

  static constexpr double kNoLimit = 1e12;  // of SearchEffort::work
  const ClampProblem& problem_;
  StageSetting setting_;
  plan::Level level_ = plan::Level::hold;
  pressure::Work work_;
  std::vector<StageAxis> rounds_;
  axis::AxisCache& cache_;
};

}  // namespace

int missing_alone(const ClampProblem& problem, const StageAxis& round) {
  return missing_of({&round}, problem.shop);
}

ClampWanted wanted_at(const StageAxis& round, const axis::ChosenClamp& clamp) {
  const axis::ClampSite& site = round.plan.sites[clamp.site];
  ClampWanted out;
  out.opening_mm = opening_mm(round.plan, site);
  out.reach_mm =
      *std::min_element(site.reach_mm.begin(), site.reach_mm.end()) + axis::kBarClears_mm;
  out.force_N = clamp.force_N;
  out.drawn = round.kind.drawn;
  out.jaw_mm = round.kind.jaw_mm;
  out.only_seats = round.plan.round.hands_do();
  out.kind = round.kind.kind;
  out.bare_jaws = bare_jaws(round.plan.packing);
  return out;
}

StageAxes plan_clamps(const ClampProblem& problem, plan::Level goal, const StageSetting& setting,
                      axis::AxisCache& cache) {
  return StagePlanner(problem, setting, cache).run(goal);
}

}  // namespace planner::clamps::layout
