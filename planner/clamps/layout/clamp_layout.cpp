#include "planner/clamps/layout/clamp_layout.h"

#include <algorithm>
#include <map>

#include "planner/base/units.h"
#include "planner/clamps/axis/fewest_on_axis.h"
#include "planner/clamps/axis/planned_clamp.h"
#include "planner/clamps/axis/pressure_levels.h"
#include "planner/clamps/axis/wide_face_clamps.h"
#include "planner/clamps/layout/borrow_for_full.h"
#include "planner/clamps/layout/clamp_clearance.h"
#include "planner/clamps/layout/clamp_ways_out.h"
#include "planner/clamps/layout/mitre_bars.h"
#include "planner/clamps/layout/spare_clamps.h"
#include "planner/clamps/layout/stage_clamps.h"
#include "planner/clamps/layout/strap_clamps.h"

namespace planner::clamps::layout {
namespace {

// A stage's rounds as the plan tells them.
class Telling {
 public:
  Telling(const ClampProblem& problem, StageAxes& stage, const Clearance& clear,
          const std::optional<StrapClamps>& band, plan::Level goal)
      : problem_(problem), stage_(stage), clear_(clear), band_(band), goal_(goal) {}

  ClampLayout to_plan() {
    ClampLayout out;
    std::size_t next = 0;
    int number = 1;
    for (StageAxis& round : stage_.rounds) {
      out.rounds.push_back(to_plan(round, std::span(stage_.owned).subspan(next), number));
      next += round.plan.clamps.size();
    }
    if (band_) {
      out.rounds.push_back(planner::clamps::layout::to_plan(problem_, *band_, number));
    }
    count(out);
    return out;
  }

 private:
  PressingAxis to_plan(StageAxis& round, std::span<const std::optional<std::size_t>> owned,
                       int& number) {
    axis::AxisClamps& plan = round.plan;
    PressingAxis out;
    out.axis = plan.round.axis;
    out.seat = plan.round.seat();
    out.hands_do = plan.round.hands_do();
    const std::vector<char> extra = goal_ == plan::Level::full
                                        ? beyond_hold(plan)
                                        : std::vector<char>(plan.clamps.size(), 0);
    std::vector<axis::ChosenClamp> there, snug;
    for (std::size_t i = 0; i < plan.clamps.size(); ++i) {
      const bool have = problem_.shop.unlimited_rack || owned[i];
      plan::PlannedClamp clamp = planned_clamp(plan, plan.clamps[i], problem_.job.units);
      take_from_rack(clamp, problem_.shop, owned[i], round.kind.kind);
      const std::size_t all = static_cast<std::size_t>(number) - 1;
      clamp.bar_side = clear_.bar_side[all];
      clamp.n = number++;
      clamp.level = out.seat        ? plan::Level::seat
                    : extra[i] != 0 ? plan::Level::full
                                    : plan::Level::hold;
      if (clear_.in_the_way[all]) {
        clamp.meets = static_cast<int>(*clear_.in_the_way[all]) + 1;
      }
      if (have) {
        there.push_back(plan.clamps[i]);
        snug.push_back({plan.clamps[i].site, clamp.snug_N});
      }
      out.clamps.push_back(std::move(clamp));
    }
    set_up_plates(plan, there);
    out.lines = line_pressures(plan, there);
    tell_snug(plan, there, snug, out.lines);
    tell_levels(out, plan);
    if (round.to_hands > 0) {
      out.by_hand = plan::ByHand{out.axis, out.presses, round.to_hands, round.to_hands_opening_mm};
    }
    out.hold_N = force_needed_N(plan, problem_.joints, stage_.work, plan::Level::hold);
    out.full_N = force_needed_N(plan, problem_.joints, stage_.work, plan::Level::full);
    out.proven_fewest = plan.proven;
    out.fewest_bound = plan.bound;
    return out;
  }

  void tell_levels(PressingAxis& out, const axis::AxisClamps& plan) const {
    // A joint that none of the clamps presses, for want of them, isn't of the round.
    const auto pressed = [&](const axis::FaceRef& f) {
      return out.seat || out.clamps.empty() ||
             std::any_of(out.clamps.begin(), out.clamps.end(), [&](const plan::PlannedClamp& c) {
               return std::find(c.joints.begin(), c.joints.end(), f.joint) != c.joints.end();
             });
    };
    for (const axis::FaceRef& f : plan.round.held) {
      if (pressed(f)) {
        out.holds.push_back(f.joint);
        out.presses.push_back(f.joint);
      }
    }
    for (const axis::FaceRef& f : plan.round.closed) {
      if (pressed(f)) {
        out.presses.push_back(f.joint);
      }
    }
    for (std::vector<work::JointId>* ids : {&out.holds, &out.presses}) {
      std::sort(ids->begin(), ids->end());
      ids->erase(std::unique(ids->begin(), ids->end()), ids->end());
    }
    out.level = out.seat ? plan::Level::seat : plan::Level::full;
    for (const plan::LinePressure& line : out.lines) {
      out.level = line.level == plan::Level::seat ? out.level : std::max(out.level, line.level);
    }
  }

  void count(ClampLayout& out) const {
    std::map<std::pair<std::string, double>, plan::InventoryRow> rows;
    for (const PressingAxis& round : out.rounds) {
      for (const plan::PlannedClamp& c : round.clamps) {
        plan::InventoryRow& row = rows[{c.kind, c.size_mm}];
        row.kind = c.kind;
        row.opening_mm = c.size_mm;
        ++row.used;
        if (!c.owned && !problem_.shop.unlimited_rack) {
          --row.used;
          ++row.short_by;
          ++out.missing;
        }
      }
    }
    for (const work::OwnedClamp& owned : problem_.shop.clamps) {
      const auto it = rows.find({owned.kind, owned.opening.mm()});
      if (it != rows.end()) {
        it->second.owned += owned.count;
      }
    }
    for (auto& [key, row] : rows) {
      out.inventory.push_back(row);
    }
  }

  const ClampProblem& problem_;
  StageAxes& stage_;
  const Clearance& clear_;
  const std::optional<StrapClamps>& band_;
  const plan::Level goal_;
};

// Of what holds, what a line that may be light is asked for, the most that the rack gives: the last
// is 10 psi of the 25 that hold.
constexpr double kLightShares[] = {0.7, axis::kLight_MPa / (25 * base::kMPaPerPsi)};

bool short_of(const StageAxes& stage, const work::Shop& shop) {
  return !shop.unlimited_rack && (stage.missing > 0 || !stage.reached);
}

// A line asked for a share of what holds wants no smaller share of its clamps: true where the whole rack
// has so many.
bool rack_has(const work::Shop& shop, double share, std::size_t clamps) {
  int owned = 0;
  for (const work::OwnedClamp& row : shop.clamps) {
    owned += row.count;
  }
  return owned >= share * static_cast<double>(clamps);
}

StageAxes planned(const ClampProblem& problem, plan::Level goal, axis::AxisCache& cache) {
  StageAxes stage = plan_clamps(problem, goal, {}, cache);
  for (const double share : kLightShares) {
    if (goal == plan::Level::light && short_of(stage, problem.shop) &&
        rack_has(problem.shop, share, static_cast<std::size_t>(stage.clamps)) &&
        !base::stop_requested(problem.stop)) {
      StageSetting setting;
      setting.light_share = share;
      stage = plan_clamps(problem, goal, setting, cache);
    }
  }
  return stage;
}

}  // namespace

ClampLayout lay_out_clamps(const ClampProblem& problem, plan::Level goal) {
  axis::AxisCache cache;
  StageAxes stage = planned(problem, goal, cache);
  for (StageAxis& round : stage.rounds) {
    if (!round.plan.reached && round.plan.model != nullptr &&
        !on_face(round.plan.packing.padding)) {
      axis::ease(round.plan);
    }
  }
  std::optional<StrapClamps> band = band_instead(problem, stage);
  if (!band) {
    band = band_over_tape(problem, stage);
  }
  even_out_mitres(problem, stage);
  const Clearance clear = clear_bars(problem, stage);
  ClampLayout layout = Telling(problem, stage, clear, band, goal).to_plan();
  layout.bar_clashes = clear.clashes;
  refuse_sliding(problem, layout.rounds);
  // What is short even of lightly held is told as what doesn't hold (plan_stages.cpp).
  if (goal != plan::Level::light && short_of(stage, problem.shop) && !base::stop_requested(problem.stop)) {
    layout.ways_out = clamp_ways_out(problem, stage, cache);
    if (const auto straps = band_short(problem, stage)) {
      layout.tried.emplace_back(*straps);
    }
  }
  if (goal == plan::Level::full && !problem.shop.unlimited_rack && stage.missing == 0 &&
      stage.reached && !band && !base::stop_requested(problem.stop) && !presses_fully(stage)) {
    layout.fuller = borrow_for_full(problem, stage, cache);
    if (!layout.fuller) {
      layout.tried.emplace_back(plan::NotFullNote{});
    }
  }
  // One line of it, of the axis that is pressed least.
  const std::vector<SpareClamps> spare = spare_clamps(problem, stage);
  const auto least = std::ranges::min_element(spare, {}, &SpareClamps::before_MPa);
  if (least != spare.end()) {
    layout.spare.emplace_back(spare_note(*least, problem));
  }
  return layout;
}

bool light_may_help(const ClampLayout& hold, const work::Shop& shop) {
  std::size_t clamps = 0;
  bool reached = true;
  for (const PressingAxis& round : hold.rounds) {
    clamps += round.hands_do ? 0 : round.clamps.size();
    reached = reached && (round.seat || round.level <= plan::Level::hold);
  }
  return (hold.missing > 0 || !reached) && rack_has(shop, kLightShares[1], clamps);
}

}  // namespace planner::clamps::layout
