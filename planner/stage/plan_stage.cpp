#include "planner/stage/plan_stage.h"

#include <algorithm>
#include <functional>

#include "planner/clamps/layout/corner_clamps.h"
#include "planner/order/comfort.h"
#include "planner/stage/cross_cauls.h"
#include "planner/stage/bench_side.h"
#include "planner/stage/clampless_rounds.h"
#include "planner/stage/clamp_numbers.h"
#include "planner/stage/lifted.h"
#include "planner/stage/parts_let_in.h"
#include "planner/stage/stage_checks.h"
#include "planner/stage/stage_demands.h"
#include "planner/stage/stage_reasons.h"
#include "planner/stage/stage_rings.h"
#include "planner/stage/stage_steps.h"
#include "planner/stage/step_reasons.h"
#include "planner/work/joint_fit.h"
#include "planner/work/joint_means.h"
#include "planner/work/step_seconds.h"

namespace planner::stage {
namespace {

// True when the ring's parts, where there is one, are all there and were not all together before.
bool closes_ring(const StageWork& work, const work::Ring& ring) {
  std::vector<std::size_t> units;
  for (work::PartId part : ring.parts) {
    for (std::size_t u = 0; u < work.units.size(); ++u) {
      if (std::find(work.units[u].begin(), work.units[u].end(), part) != work.units[u].end()) {
        units.push_back(u);
      }
    }
  }
  return units.size() == ring.parts.size() &&
         std::adjacent_find(units.begin(), units.end(), std::not_equal_to<>()) != units.end();
}

clamps::layout::ClampProblem clamp_problem(const StageInput& input, const StageWork& work,
                                           const PlanOptions& options) {
  clamps::layout::ClampProblem problem{input.job, input.shop,  input.solids, input.joints,
                                       {},        work.joints, input.glue,   options.prove};
  for (const auto& unit : work.units) {
    problem.parts.insert(problem.parts.end(), unit.begin(), unit.end());
  }
  problem.stop = options.stop ? &options.stop : nullptr;
  std::sort(problem.parts.begin(), problem.parts.end());
  return problem;
}

clamps::layout::ClampLayout layout_for(const StageInput& input, const StageWork& work,
                                       const PlanOptions& options, plan::Level goal) {
  const auto* hold = goal == plan::Level::light ? input.layouts->known(work, plan::Level::hold) : nullptr;
  if (hold != nullptr && !light_may_help(*hold, input.shop)) {
    return *hold;
  }
  return input.layouts->of(
      work, goal, [&] { return lay_out_clamps(clamp_problem(input, work, options), goal); },
      [&] { return !base::stop_requested(&options.stop); });
}

// A sheet that is only fastened, the one with most joints: it goes on once the rest stands, and
// squares it.
std::optional<work::PartId> fastened_sheet(const StageInput& input, const StageWork& work) {
  std::optional<work::PartId> best;
  int most = 0;
  for (const std::vector<work::PartId>& unit : work.units) {
    const work::PartId part = unit.front();
    int rows = 0;
    bool only = unit.size() == 1;
    for (const work::JointId id : work.joints) {
      const work::Joint& joint = input.joints[id];
      if (std::ranges::count(joint.parts, part) > 0) {
        const auto sheet = sheet_face(joint, input.job);
        only = only && work::fastens(joint.held_by) && sheet && joint.parts[sheet->sheet] == part;
        ++rows;
      }
    }
    if (only && rows > most) {
      best = part;
      most = rows;
    }
  }
  return best;
}

// Diagonals are checked in the stage that closes the ring; the closing part may have gone on
// before.
StageClock clock_of(const StageInput& input, const StageWork& work,
                    const std::optional<plan::CrossCauls>& cauls,
                    std::vector<StageDemand>& demands) {
  const auto alone = [&](work::PartId part) {
    return std::any_of(work.units.begin(), work.units.end(),
                       [&](const std::vector<work::PartId>& unit) {
                         return unit.size() == 1 && unit.front() == part;
                       });
  };
  std::vector<std::size_t> closed;
  for (std::size_t r = 0; r < input.rings.size(); ++r) {
    if (closes_ring(work, input.rings[r])) {
      closed.push_back(r);
    }
  }
  StageClock clock{.shop = input.shop, .glue = input.glue, .weight_g = input.weight_g, .bounds = input.bounds};
  clock.rings = stage_rings(
      input.joints, {input.rings, closed},
      stage_checks(work, input.joints, input.bounds, !closed.empty(), input.shop.pace), input.shop.pace,
      input.glue, demands);
  if (cauls) {
    clock.rings.front().cauls_s = cauls_seconds(*cauls, input.shop);
  }
  const bool closes_first = !closed.empty() && closed.front() == 0;
  if (closes_first && input.closing_part && alone(*input.closing_part)) {
    clock.closing_part = input.closing_part;
    // A ring that is checked before the part goes on has been looked at inside.
    const bool waits = std::ranges::any_of(demands, [&](const StageDemand& demand) {
      return demand.ring == 0 && std::ranges::any_of(demand.closed_first, [&](work::JointId id) {
               const auto& parts = input.joints[id].parts;
               return std::ranges::find(parts, *input.closing_part) != parts.end();
             });
    });
    clock.inside_check_s = waits ? ring_check_s(input.rings.front(), input.shop.pace) : 0;
  }
  return clock;
}

// A clamp layout with the best order and clock for it.
struct Timed {
  clamps::layout::ClampLayout layout;
  std::optional<plan::CrossCauls> cauls;
  plan::Stage means;  // its fastenings and loadings
  bool sheet_last = true, fold_tape = false;  // what is asked of the order, while there is one
  std::vector<ClampGroup> groups;
  SettingRounds setting;
  std::vector<StageDemand> demands;  // those of the groups first
  std::vector<StageRing> rings;
  order::ScheduleProblem problem;
  order::Schedule schedule;
};

BenchSide side_of(const StageInput& input, const StageWork& work, const Timed& one) {
  return choose_bench_side(one.problem, one.schedule, work, input.joints, one.demands, input.standing);
}

std::vector<std::size_t> turned_after(const BenchSide& bench) {
  std::vector<std::size_t> joins;
  for (std::size_t i = 0; i < bench.joins.size(); ++i) {
    if (bench.joins[i].turned_after) {
      joins.push_back(i);
    }
  }
  return joins;
}

// The same order with so many seconds on top of each of these joins.
order::ScheduleProblem with_turns(order::ScheduleProblem problem, const order::Schedule& schedule,
                                  const std::vector<std::size_t>& turned, int turn_s) {
  for (const std::size_t join : turned) {
    for (const int joint : schedule.joins[join].joints) {
      problem.joints[static_cast<std::size_t>(joint)].join_s += turn_s;
    }
  }
  return problem;
}

// Turning the work over takes its time, which the order was found without: the order stays, and its clock is
// planned anew, until the clamps it has on at each join ask for no other turns. No order has more to spare
// than the first had.
void count_turns(const StageInput& input, const StageWork& work, Timed& out) {
  constexpr int kMostTries = 3;
  if (out.schedule.status == plan::Proof::impossible) {
    return;
  }
  std::vector<std::size_t> turned = turned_after(side_of(input, work, out)), counted;
  if (turned.empty()) {
    return;
  }
  const order::ScheduleProblem without = out.problem;
  const order::Schedule first = out.schedule;
  for (int tries = 0; tries < kMostTries && turned != counted; ++tries) {
    counted = turned;
    out.problem = with_turns(without, first, turned, work::whole_seconds(input.shop.pace.turn_s));
    order::ScheduleProblem given = out.problem;
    for (const order::PlannedJoin& join : first.joins) {
      given.given_joins.emplace_back(join.moving, join.staying);
    }
    out.schedule = solve_schedule(given);
    if (out.schedule.status == plan::Proof::impossible) {  // stopped by hand
      out.problem = without;
      out.schedule = first;
      return;
    }
    turned = turned_after(side_of(input, work, out));
  }
  out.schedule.status = first.status;
  out.schedule.bound_s = first.bound_s;
  if (out.schedule.slack_s < first.slack_s && first.status == plan::Proof::proven) {
    out.schedule.status = plan::Proof::bounded;
    out.schedule.bound_s = first.slack_s;
  }
  out.schedule.ties_settled = first.ties_settled;
}

void solve(const StageInput& input, const StageWork& work, const PlanOptions& options, Timed& out) {
  out.demands.resize(out.groups.size());
  StageClock clock = clock_of(input, work, out.cauls, out.demands);
  const auto sheet = fastened_sheet(input, work);
  if (sheet && out.sheet_last) {
    clock.closing_part = sheet;  // diagonals are measured before it anyway
    clock.inside_check_s = 0;
  }
  clock.fold_tape = out.fold_tape;
  add_clampless(out.means, work, input.shop.pace, out.demands, clock.rings);
  out.rings = clock.rings;
  out.problem = schedule_problem(work, input.joints, input.motions, out.demands, clock);
  // The problem outlives this call; where nobody can ask for an end it keeps nothing of the
  // options.
  out.problem.assembly.stop = options.stop ? &options.stop : nullptr;
  out.schedule =
      solve_schedule(out.problem, options.prove ? order::Effort::unlimited() : order::Effort{});
  const bool asked_more = (sheet && out.sheet_last) || out.fold_tape;
  if (asked_more && out.schedule.status == plan::Proof::impossible &&
      !base::stop_requested(&options.stop)) {
    out.sheet_last = out.fold_tape && out.sheet_last;  // its neighbours close round it
    out.fold_tape = false;
    solve(input, work, options, out);
    return;
  }
  count_turns(input, work, out);
}

// Rounds that would bar a part the way wait for it: also once an end is asked for, as else nobody could
// follow the plan.
void solve_letting_in(const StageInput& input, const StageWork& work, const PlanOptions& options,
                      Timed& out) {
  do {
    solve(input, work, options, out);
  } while (out.schedule.status != plan::Proof::impossible &&
           let_parts_in(out.schedule, out.problem, work, input.joints, input.bounds, input.shop,
                        out.layout, out.groups, out.demands));
}

// Rounds that would bar others the way go on after them; where that takes too long, those others
// are laid in their places before.
Timed timed(const StageInput& input, const StageWork& work, const PlanOptions& options,
            clamps::layout::ClampLayout layout, std::optional<plan::CrossCauls> cauls = {},
            std::span<const plan::CornerClamp> corners = {}) {
  Timed out;
  out.layout = std::move(layout);
  out.cauls = std::move(cauls);
  out.fold_tape = std::ranges::any_of(work.joints, [&](work::JointId id) {
    return input.joints[id].held_by == work::HeldBy::tape;
  });
  out.means.fastenings = fastenings_of(input, work);
  out.means.loadings = loadings_of(input, work);
  out.groups = together(out.layout, input.joints);
  out.demands = demands_of(out.layout, out.groups, input.joints, input.shop.pace, corners);
  out.setting = SettingRounds(out.layout, out.groups, input.shop);
  solve_letting_in(input, work, options, out);
  Timed ordered = out;
  while (ordered.schedule.in_time() && !base::stop_requested(&options.stop) &&
         ordered.setting.let_in(rounds_in_order(ordered.schedule, ordered.groups.size()),
                                ordered.demands)) {
    solve_letting_in(input, work, options, ordered);
  }
  return ordered.schedule.in_time() ? ordered : out;
}

int clamp_count(const clamps::layout::ClampLayout& layout) {
  std::size_t count = 0;
  for (const clamps::layout::PressingAxis& round : layout.rounds) {
    count += round.clamps.size();
  }
  return static_cast<int>(count);
}

bool comfortable(const Timed& one) {
  return order::comfortable(one.problem, one.schedule);
}

bool worth_keeping(const Timed& full) {
  return full.schedule.in_time() && comfortable(full);
}

// Of one row of the rack: how many of the stage's corner clamps come from it.
void count_corners(const work::Shop& shop, std::span<const plan::CornerClamp> corners,
                   clamps::layout::ClampLayout& layout) {
  std::vector<int> used(shop.clamps.size(), 0);
  for (const plan::CornerClamp& corner : corners) {
    ++used[corner.owned];
  }
  for (std::size_t r = 0; r < used.size(); ++r) {
    if (used[r] > 0) {
      const work::OwnedClamp& row = shop.clamps[r];
      layout.inventory.push_back({row.kind, row.opening.mm(), row.count, used[r], 0});
    }
  }
}

// Cauls across a panel, where the rack has clamps left for them and the glue the time.
void set_cauls(const StageInput& input, const StageWork& work, const PlanOptions& options,
               Timed& best) {
  if (!best.schedule.in_time() || best.layout.missing > 0 ||
      base::stop_requested(&options.stop)) {
    return;
  }
  const auto cauls = cross_cauls(work, input.joints, input.bounds, input.shop, best.layout);
  if (!cauls) {
    return;
  }
  Timed with = timed(input, work, options, best.layout, cauls);
  if (with.schedule.in_time() && (comfortable(with) || !comfortable(best))) {
    best = std::move(with);
    count_clamps(*cauls, input.shop, best.layout);
  }
}

// Sets the rack's corner clamps, where the clamps leave room for them and the glue the time. What
// is in the way is told.
std::vector<plan::CornerClamp> set_corners(const StageInput& input, const StageWork& work,
                                           const PlanOptions& options, Timed& best) {
  if (input.rings.empty() || !closes_ring(work, input.rings.front()) ||
      input.rings.front().parts.size() != 4 || !best.schedule.in_time() ||
      best.layout.missing > 0) {
    return {};
  }
  clamps::layout::CornerClamps corners =
      corner_clamps(clamp_problem(input, work, options), input.rings.front(), best.layout);
  if (!corners.set.empty()) {
    Timed with = timed(input, work, options, best.layout, best.cauls, corners.set);
    if (with.schedule.in_time() && (comfortable(with) || !comfortable(best))) {
      best = std::move(with);
      count_corners(input.shop, corners.set, best.layout);
    } else {
      corners = {{}, plan::CornerClampsNote{plan::CornerClampsNote::Why::no_time}};
    }
  }
  if (corners.why_not) {
    best.layout.tried.emplace_back(*corners.why_not);
  }
  return std::move(corners.set);
}

// What is held, where it isn't pressed fully though that was asked for.
Timed left_out(Timed held, plan::FullLeftOutNote::Why why) {
  const bool told = std::ranges::any_of(held.layout.tried, [](const plan::SpareNote& note) {
    return std::holds_alternative<plan::NotFullNote>(note);
  });
  if (!told && held.layout.missing == 0 && clamp_count(held.layout) > 0) {
    held.layout.tried.emplace_back(plan::FullLeftOutNote{why});
  }
  return held;
}

// More clamps take longer: only a stage with time to spare is pressed fully, where that is asked.
Timed held_or_full(const StageInput& input, const StageWork& work, const PlanOptions& options) {
  using Why = plan::FullLeftOutNote::Why;
  const plan::Level first =
      options.goal == plan::Level::full ? plan::Level::hold : options.goal;
  Timed held = timed(input, work, options, layout_for(input, work, options, first));
  if (options.goal != plan::Level::full || base::stop_requested(&options.stop)) {
    return held;
  }
  if (!held.schedule.in_time() || !comfortable(held) || held.layout.missing > 0) {
    return left_out(std::move(held), Why::no_time);
  }
  clamps::layout::ClampLayout full = layout_for(input, work, options, plan::Level::full);
  if (clamp_count(full) < clamp_count(held.layout)) {
    return held;
  }
  const bool more = clamp_count(full) > clamp_count(held.layout);
  Timed fuller = timed(input, work, options, std::move(full));
  if (!worth_keeping(fuller)) {
    return left_out(std::move(held), Why::no_time);
  }
  const bool full_everywhere = std::ranges::all_of(fuller.layout.rounds, [](const auto& round) {
    return round.level == plan::Level::full || round.seat;
  });
  return more || full_everywhere ? fuller : left_out(std::move(fuller), Why::no_more);
}

}  // namespace

PlannedStage plan_stage(const StageInput& input, const StageWork& work, const PlanOptions& options,
                        int first_step, int first_clamp) {
  Timed best = held_or_full(input, work, options);
  set_cauls(input, work, options, best);
  std::vector<plan::CornerClamp> corners = set_corners(input, work, options, best);
  if (best.layout.fuller && best.layout.fuller->more_s <= best.schedule.slack_s) {
    best.layout.ways_out.push_back(best.layout.fuller->hold);
    best.layout.ways_out.push_back(best.layout.fuller->borrow);
  }
  PlannedStage planned;
  plan::Stage numbered;
  std::optional<plan::OrderReason> bench_reason;
  const auto numbers =
      number_clamps(best.setting, rounds_in_order(best.schedule, best.groups.size()), first_clamp,
                    best.layout, numbered.clamps);
  if (best.schedule.status == plan::Proof::impossible) {
    planned.impossible = impossible_reason(best.problem, best.schedule, work);
    planned.stage.status = plan::Proof::impossible;
    for (const auto& unit : work.units) {
      planned.stage.parts.insert(planned.stage.parts.end(), unit.begin(), unit.end());
    }
    planned.stage.joints = work.joints;
  } else {
    const BenchSide bench = side_of(input, work, best);
    planned.stage = stage_from({best.schedule, best.problem, work, input.joints,
                                input.motions.folds(), best.demands, numbers, bench, best.rings,
                                work::whole_seconds(input.shop.pace.turn_s)},
                               first_step);
    bench_reason = bench.why;
  }
  for (std::size_t i = 0; i < planned.stage.steps.size(); ++i) {
    planned.stage.steps[i].why = step_reason(planned.stage, i);
  }
  if (options.explain && bench_reason) {
    planned.stage.why = order_reasons(best.problem, best.schedule, work);
    planned.stage.why.push_back(*bench_reason);
  }
  planned.stage.clamps = std::move(numbered.clamps);
  weigh_lifts(planned.stage, input.joints, input.weight_g);
  planned.stage.corner_clamps = std::move(corners);
  planned.stage.cross_cauls = std::move(best.cauls);
  planned.stage.fastenings = std::move(best.means.fastenings);
  planned.stage.loadings = std::move(best.means.loadings);
  for (const clamps::layout::PressingAxis& round : best.layout.rounds) {
    if (round.by_hand) {
      planned.stage.by_hand.push_back(*round.by_hand);
    }
  }
  planned.stage.clamp_time_s = input.glue.clamp_s;
  planned.layout = std::move(best.layout);
  planned.problem = std::move(best.problem);
  planned.schedule = std::move(best.schedule);
  return planned;
}

}  // namespace planner::stage
