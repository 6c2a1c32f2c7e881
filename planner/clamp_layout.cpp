#include "planner/clamp_layout.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "planner/clamp_rack.h"
#include "planner/clamp_rounds.h"
#include "planner/line_levels.h"
#include "planner/round_plan.h"
#include "planner/tables/clamp.h"

namespace planner {
namespace {

using geometry::Direction;

constexpr double kHalfInch_mm = 12.7;   // pre-set opening beyond span and pads; common practice
constexpr double kPadThick_mm = 19.05;  // 3/4 in stock
constexpr double kBarClears_mm = 3;     // between a bar and the work it passes
constexpr double kAlikeReach_mm = 1;

struct Round {
  RoundPlan plan;
  PlannedKind kind;
  double thick_mm = kPadThick_mm;  // of its blocks or strips
};

double opening_mm(const Round& round, const ClampSite& site) {
  return site.span_mm + 2 * round.thick_mm + kHalfInch_mm;
}

// To the nearest edge that a bar can pass.
double reach_mm(const ClampSite& site) {
  return *std::min_element(site.reach_mm.begin(), site.reach_mm.end()) + kBarClears_mm;
}

using Rounds = std::vector<const Round*>;
using Owned = std::vector<std::optional<std::size_t>>;

std::vector<ClampWanted> wanted_by(const Rounds& rounds) {
  std::vector<ClampWanted> wanted;
  for (const Round* round : rounds) {
    for (const ChosenClamp& c : round->plan.clamps) {
      const ClampSite& site = round->plan.sites[c.site];
      wanted.push_back({opening_mm(*round, site), reach_mm(site), c.force_N, round->kind.jaw_mm,
                        round->plan.round.seat()});
    }
  }
  return wanted;
}

class Layout {
 public:
  explicit Layout(const ClampProblem& problem)
      : problem_(problem), work_(work_of(problem.parts, problem.solids)) {}

  ClampLayout run(Level goal) {
    for (const RoundAxis& axis : round_axes(problem_.joints, problem_.stage_joints, problem_.job)) {
      rounds_.push_back(best_round(axis, Level::hold, all()));
    }
    if (goal == Level::full) {
      press_fully();
    }
    return finish();
  }

 private:
  Rounds all() const { return all_but(nullptr); }
  Rounds all_but(const Round* one) const {
    Rounds out;
    for (const Round& round : rounds_) {
      if (&round != one) {
        out.push_back(&round);
      }
    }
    return out;
  }

  Owned assign(const Rounds& rounds) const {
    return assign_clamps(wanted_by(rounds), problem_.shop.clamps);
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

  // Planned on each kind in turn, until the rack has all its clamps beside those of `others`.
  Round best_round(const RoundAxis& axis, Level level, const Rounds& others) const {
    std::optional<Round> best;
    int fewest = 0;
    const double widest = widest_opening_mm(axis.axis);
    std::vector<PlannedKind> kinds = kinds_that_open(problem_.shop, widest);
    if (kinds.empty()) {  // nothing on the rack opens so far: plan on what would
      kinds = kinds_that_open(Shop{}, widest);
    }
    for (const PlannedKind& kind : kinds) {
      Round round = plan(axis, kind, level);
      Rounds with = others;
      with.push_back(&round);
      const int lacking = missing(with);
      const bool better = round.plan.reached != (best && best->plan.reached) ? round.plan.reached
                                                                             : lacking < fewest;
      if (!best || better) {
        best = std::move(round);
        fewest = lacking;
      }
      if (best->plan.reached && fewest == 0) {
        break;
      }
    }
    return std::move(*best);
  }

  Round plan(const RoundAxis& axis, const PlannedKind& kind, Level level) const {
    RoundSetting setting;
    setting.jaw_mm = kind.jaw_mm;
    setting.jaw_high_mm = kind.jaw_high_mm;
    setting.thick_mm = kPadThick_mm;
    setting.force_N = kind.force_N;
    if (problem_.prove) {
      setting.effort = kNoLimit;
    }
    const RoundQuestion question{problem_.job, problem_.joints, work_,
                                 axis,         problem_.glue,   setting};
    return {plan_round(question, level), kind, kPadThick_mm};
  }

  // Across the whole work; where a clamp stands it may be less.
  double widest_opening_mm(const Direction& axis) const {
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
    return hi - lo + 2 * kPadThick_mm + kHalfInch_mm;
  }

  // Axis by axis, where the rack has what it takes.
  void press_fully() {
    int lacking = missing(all());
    for (Round& round : rounds_) {
      if (round.plan.round.seat()) {
        continue;
      }
      Rounds with = all_but(&round);
      Round full = best_round(round.plan.round, Level::full, with);
      with.push_back(&full);
      const int now = missing(with);
      if (full.plan.reached && now <= lacking) {
        round = std::move(full);
        lacking = now;
      }
    }
  }

  // --- What comes of it
  // ---------------------------------------------------------------------------

  ClampLayout finish() {
    ClampLayout out;
    const Owned owned =
        problem_.shop.unlimited_rack ? Owned(wanted_by(all()).size()) : assign(all());
    std::size_t next = 0;
    int number = 1;
    for (const Round& round : rounds_) {
      out.rounds.push_back(told(round, std::span(owned).subspan(next), number));
      next += round.plan.clamps.size();
    }
    count(out);
    return out;
  }

  ClampRound told(const Round& round, std::span<const std::optional<std::size_t>> owned,
                  int& number) const {
    const RoundPlan& plan = round.plan;
    ClampRound out;
    out.axis = plan.round.axis;
    out.seat = plan.round.seat();
    const std::vector<char> extra = beyond_hold(plan);
    std::vector<ChosenClamp> there;
    for (std::size_t i = 0; i < plan.clamps.size(); ++i) {
      const bool have = problem_.shop.unlimited_rack || owned[i];
      if (!have && out.seat) {
        out.why_short.push_back("close the shoulders along this axis by hand");
        continue;
      }
      PlannedClamp clamp = planned(round, plan.clamps[i], owned[i]);
      clamp.bar_side = bar_side(plan, plan.sites[plan.clamps[i].site], out.clamps.size());
      clamp.n = number++;
      clamp.level = out.seat ? Level::seat : extra[i] != 0 ? Level::full : Level::hold;
      clamp.why = why(clamp);
      out.clamps.push_back(std::move(clamp));
      if (have) {
        there.push_back(plan.clamps[i]);
      }
    }
    out.lines = line_pressures(plan, there);
    tell_levels(out, plan);
    out.hold_N = force_needed_N(plan, problem_.joints, work_, plan.hold_MPa);
    out.full_N = force_needed_N(plan, problem_.joints, work_, plan.full_MPa);
    out.proven_fewest = plan.proven;
    out.fewest_bound = plan.bound;
    return out;
  }

  PlannedClamp planned(const Round& round, const ChosenClamp& chosen,
                       const std::optional<std::size_t>& owned) const {
    const ClampSite& site = round.plan.sites[chosen.site];
    const ClampKind* kind =
        find_clamp_kind(owned ? problem_.shop.clamps[*owned].kind : round.kind.kind);
    PlannedClamp c;
    c.axis = round.plan.round.axis;
    c.at = site.at;
    c.span_mm = site.span_mm;
    c.kind = kind->id;
    c.owned = owned;
    c.opening_mm = opening_mm(round, site);
    c.force_N = chosen.force_N;
    c.bearing_limit_MPa = round.plan.bearing_limit_MPa[chosen.site];
    c.pad = site.pad;
    if (round.plan.padding == Padding::strips) {
      c.caul = PadSize{round.plan.tracks[site.track].length_mm, site.pad.across_mm, round.thick_mm};
      c.pad = {};
    }
    c.bearing_MPa = chosen.force_N * c.bearing_limit_MPa / round.plan.bears_N[chosen.site];
    c.barrier = kind->bare_iron;
    for (const GlueLine& line : round.plan.lines) {
      const auto l = static_cast<std::size_t>(&line - round.plan.lines.data());
      const bool presses = l < round.plan.held_lines
                               ? round.plan.model->presses(chosen.site, l)
                               : std::any_of(site.presses.begin(), site.presses.end(),
                                             [l](const PressedAt& p) { return p.line == l; });
      if (presses) {
        c.joints.push_back(line.joint);
      }
    }
    std::sort(c.joints.begin(), c.joints.end());
    c.joints.erase(std::unique(c.joints.begin(), c.joints.end()), c.joints.end());
    return c;
  }

  // Towards the nearest edge of the work. Where above and below (or two other sides) are alike, in
  // turn along the track, so that their pull on a panel's two faces evens out.
  static Direction bar_side(const RoundPlan& plan, const ClampSite& site, std::size_t turn) {
    const Direction along = plan.tracks[site.track].along;
    const Direction across = across_of(plan.tracks[site.track], plan.round.axis);
    const Direction sides[] = {-along, along, -across, across};
    std::size_t best = 2;
    for (const std::size_t side : {3U, 0U, 1U}) {
      if (site.reach_mm[side] < site.reach_mm[best] - kAlikeReach_mm) {
        best = side;
      }
    }
    const std::size_t opposite = best ^ 1U;
    const bool alike = site.reach_mm[opposite] < site.reach_mm[best] + kAlikeReach_mm;
    return sides[alike && turn % 2 == 1 ? opposite : best];
  }

  std::string why(const PlannedClamp& clamp) const {
    std::string names;
    for (std::size_t i = 0; i < clamp.joints.size(); ++i) {
      names += i == 0 ? "" : i + 1 == clamp.joints.size() ? " and " : ", ";
      names += joint_name(problem_.joints[clamp.joints[i]], problem_.job);
    }
    return clamp.level == Level::seat   ? "closes the shoulders of " + names
           : clamp.level == Level::full ? "adds to the pressure on " + names
                                        : "holds " + names;
  }

  void tell_levels(ClampRound& out, const RoundPlan& plan) const {
    for (const FaceRef& f : plan.round.held) {
      out.holds.push_back(f.joint);
      out.presses.push_back(f.joint);
    }
    for (const FaceRef& f : plan.round.closed) {
      out.presses.push_back(f.joint);
    }
    for (std::vector<JointId>* ids : {&out.holds, &out.presses}) {
      std::sort(ids->begin(), ids->end());
      ids->erase(std::unique(ids->begin(), ids->end()), ids->end());
    }
    out.level = out.seat ? Level::seat : Level::full;
    for (const LinePressure& line : out.lines) {
      if (line.level == Level::short_of_hold ||
          (line.level == Level::hold && out.level == Level::full)) {
        out.level = line.level;
      }
      if (line.level == Level::short_of_hold) {
        out.why_short.push_back(joint_name(problem_.joints[line.joint], problem_.job) +
                                " is not held");
      }
    }
    for (const std::size_t l : plan.beyond_reach) {
      out.why_short.push_back("no clamp can stand over " +
                              joint_name(problem_.joints[plan.lines[l].joint], problem_.job) +
                              ": there is a hollow behind it, or no free face to bear on");
    }
  }

  void count(ClampLayout& out) const {
    std::map<std::pair<std::string, double>, InventoryRow> rows;
    for (const ClampRound& round : out.rounds) {
      for (const PlannedClamp& c : round.clamps) {
        const double size = c.owned ? problem_.shop.clamps[*c.owned].opening.mm()
                                    : sold_opening_mm(c.kind, c.opening_mm);
        InventoryRow& row = rows[{c.kind, size}];
        row.kind = c.kind;
        row.opening_mm = size;
        ++row.used;
        if (!c.owned && !problem_.shop.unlimited_rack) {
          --row.used;
          ++row.short_by;
          ++out.missing;
        }
      }
    }
    for (const OwnedClamp& owned : problem_.shop.clamps) {
      const auto it = rows.find({owned.kind, owned.opening.mm()});
      if (it != rows.end()) {
        it->second.owned += owned.count;
      }
    }
    for (auto& [key, row] : rows) {
      out.inventory.push_back(row);
    }
  }

  static constexpr SearchEffort kNoLimit{1'000'000, 100'000'000};
  const ClampProblem& problem_;
  Work work_;
  std::vector<Round> rounds_;
};

}  // namespace

ClampLayout lay_out_clamps(const ClampProblem& problem, Level goal) {
  return Layout(problem).run(goal);
}

}  // namespace planner
