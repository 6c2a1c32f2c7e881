#include "planner/plan_stage.h"

#include <algorithm>
#include <functional>

#include "planner/bench_side.h"
#include "planner/joint_fit.h"
#include "planner/locators.h"
#include "planner/pace.h"
#include "planner/stage_reasons.h"
#include "planner/stage_steps.h"
#include "planner/step_reasons.h"
#include "planner/verdict.h"

namespace planner {
namespace {

std::string axis_name(const geometry::Direction& axis) {
  return std::abs(axis.x) > 0.9   ? "lengthwise"
         : std::abs(axis.y) > 0.9 ? "across"
         : std::abs(axis.z) > 0.9 ? "down"
                                  : "slanting";
}

// A joint whose main face its own fit presses is held by the clamps that close it.
std::vector<JointId> held_by(const ClampRound& round, std::span<const Joint> joints) {
  std::vector<JointId> held = round.holds;
  for (JointId joint : round.presses) {
    if (!main_face(joints[joint])) {
      held.push_back(joint);
    }
  }
  return held;
}

// Rounds that press one joint between them (a mitre, along two axes) go on as one. Each inner list
// holds indices into layout.rounds.
std::vector<std::vector<std::size_t>> together(const ClampLayout& layout,
                                               std::span<const Joint> joints) {
  std::vector<std::vector<std::size_t>> groups;
  for (std::size_t r = 0; r < layout.rounds.size(); ++r) {
    if (layout.rounds[r].clamps.empty()) {
      continue;
    }
    const auto held = held_by(layout.rounds[r], joints);
    const auto shares = [&](const std::vector<std::size_t>& group) {
      return std::any_of(group.begin(), group.end(), [&](std::size_t other) {
        const auto theirs = held_by(layout.rounds[other], joints);
        return std::find_first_of(theirs.begin(), theirs.end(), held.begin(), held.end()) !=
               theirs.end();
      });
    };
    const auto found = std::find_if(groups.begin(), groups.end(), shares);
    if (found != groups.end()) {
      found->push_back(r);
    } else {
      groups.push_back({r});
    }
  }
  return groups;
}

void add_once(std::vector<JointId>& all, const std::vector<JointId>& more) {
  for (JointId joint : more) {
    if (std::find(all.begin(), all.end(), joint) == all.end()) {
      all.push_back(joint);
    }
  }
}

// Corner clamps are set before the round that holds their corners, and take its time.
void add_corners(std::span<const Locator> corners, const Pace& pace,
                 std::vector<RoundDemand>& demands) {
  for (RoundDemand& demand : demands) {
    int more_s = 0;
    for (const Locator& corner : corners) {
      const bool holds =
          std::find(demand.holds.begin(), demand.holds.end(), corner.joint) != demand.holds.end();
      more_s += holds ? snug_seconds(corner.kind, pace) : 0;
    }
    demand.snug_s += (more_s + demand.clamps - 1) / std::max(1, demand.clamps);
  }
}

std::vector<RoundDemand> demands_of(const ClampLayout& layout, std::span<const Joint> joints,
                                    const Pace& pace, std::span<const Locator> corners) {
  std::vector<RoundDemand> demands;
  for (const auto& group : together(layout, joints)) {
    RoundDemand demand;
    std::vector<PlannedClamp> clamps;
    for (std::size_t r : group) {
      const ClampRound& round = layout.rounds[r];
      demand.name += (demand.name.empty() ? "" : " and ") + axis_name(round.axis);
      clamps.insert(clamps.end(), round.clamps.begin(), round.clamps.end());
      add_once(demand.holds, held_by(round, joints));
      add_once(demand.presses, round.presses);
    }
    demand.clamps = static_cast<int>(clamps.size());
    demand.snug_s = snug_seconds(clamps, pace);
    demand.tighten_s = whole_seconds(pace.tighten_s);
    demands.push_back(std::move(demand));
  }
  add_corners(corners, pace, demands);
  return demands;
}

// True when the ring's parts are all there and were not all together before.
bool closes_ring(const StageWork& work, const StageInput& input) {
  std::vector<std::size_t> units;
  for (PartId part : input.ring->parts) {
    for (std::size_t u = 0; u < work.units.size(); ++u) {
      if (std::find(work.units[u].begin(), work.units[u].end(), part) != work.units[u].end()) {
        units.push_back(u);
      }
    }
  }
  return units.size() == 4 &&
         std::adjacent_find(units.begin(), units.end(), std::not_equal_to<>()) != units.end();
}

ClampProblem clamp_problem(const StageInput& input, const StageWork& work,
                           const PlanOptions& options) {
  ClampProblem problem{input.job, input.shop,  input.solids, input.joints,
                       {},        work.joints, input.glue,   options.prove};
  for (const auto& unit : work.units) {
    problem.parts.insert(problem.parts.end(), unit.begin(), unit.end());
  }
  problem.stop = options.stop ? &options.stop : nullptr;
  std::sort(problem.parts.begin(), problem.parts.end());
  return problem;
}

ClampLayout layout_for(const StageInput& input, const StageWork& work, const PlanOptions& options,
                       Level goal) {
  return lay_out_clamps(clamp_problem(input, work, options), goal);
}

// Diagonals are checked in the stage that closes the ring; the closing part may have gone on
// before.
StageClock clock_of(const StageInput& input, const StageWork& work) {
  const auto alone = [&](PartId part) {
    return std::any_of(work.units.begin(), work.units.end(), [&](const std::vector<PartId>& unit) {
      return unit.size() == 1 && unit.front() == part;
    });
  };
  StageClock clock{
      input.shop, input.glue, input.ring && closes_ring(work, input), {}, input.weight_g};
  if (clock.check_square && input.closing_part && alone(*input.closing_part)) {
    clock.closing_part = input.closing_part;
  }
  return clock;
}

// A clamp layout with the best order and clock for it.
struct Timed {
  ClampLayout layout;
  std::vector<RoundDemand> demands;
  ScheduleProblem problem;
  Schedule schedule;
};

Timed timed(const StageInput& input, const StageWork& work, const PlanOptions& options,
            ClampLayout layout, std::span<const Locator> corners = {}) {
  Timed out{std::move(layout), {}, {}, {}};
  out.demands = demands_of(out.layout, input.joints, input.shop.pace, corners);
  out.problem =
      schedule_problem(work, input.joints, input.motions, out.demands, clock_of(input, work));
  // The problem outlives this call; where nobody can ask for an end it keeps nothing of the
  // options.
  out.problem.assembly.stop = options.stop ? &options.stop : nullptr;
  out.schedule = solve_schedule(out.problem, options.prove ? Effort::unlimited() : Effort{});
  return out;
}

int clamp_count(const ClampLayout& layout) {
  std::size_t count = 0;
  for (const ClampRound& round : layout.rounds) {
    count += round.clamps.size();
  }
  return static_cast<int>(count);
}

// A fifth of the tightest joint's binding limit to spare.
bool comfortable(const Timed& one) {
  if (one.schedule.tightest < 0) {
    return true;
  }
  const auto j = static_cast<std::size_t>(one.schedule.tightest);
  const JointTime& time = one.problem.joints[j];
  const JointClock& clock = one.schedule.clocks[j];
  const bool open_binds = time.open_s - clock.used_open_s <= time.total_s - clock.used_total_s;
  return one.schedule.slack_s >= kComfortableShare * (open_binds ? time.open_s : time.total_s);
}

bool worth_keeping(const Timed& full) {
  return full.schedule.in_time() && comfortable(full);
}

// Of one row of the rack: how many of the stage's corner clamps come from it.
void count_corners(const Shop& shop, std::span<const Locator> corners, ClampLayout& layout) {
  std::vector<int> used(shop.clamps.size(), 0);
  for (const Locator& corner : corners) {
    ++used[corner.owned];
  }
  for (std::size_t r = 0; r < used.size(); ++r) {
    if (used[r] > 0) {
      const OwnedClamp& row = shop.clamps[r];
      layout.inventory.push_back({row.kind, row.opening.mm(), row.count, used[r], 0});
    }
  }
}

// Sets the rack's corner clamps, where the clamps leave room for them and the glue the time. What
// is in the way is told.
std::vector<Locator> set_corners(const StageInput& input, const StageWork& work,
                                 const PlanOptions& options, Timed& best) {
  if (!input.ring || !closes_ring(work, input) || !best.schedule.in_time() ||
      best.layout.missing > 0) {
    return {};
  }
  CornerClamps corners =
      corner_clamps(clamp_problem(input, work, options), *input.ring, best.layout);
  if (!corners.set.empty()) {
    Timed with = timed(input, work, options, best.layout, corners.set);
    if (with.schedule.in_time() && (comfortable(with) || !comfortable(best))) {
      best = std::move(with);
      count_corners(input.shop, corners.set, best.layout);
    } else {
      corners = {{}, "the corner clamps stay on the rack: the glue leaves no time to set them"};
    }
  }
  if (!corners.why_not.empty()) {
    best.layout.tried.push_back(corners.why_not);
  }
  return std::move(corners.set);
}

// Numbers the clamps through the plan and hands them to the stage, round by round.
std::vector<std::vector<int>> number_clamps(ClampLayout& layout, std::span<const Joint> joints,
                                            Stage& stage, int first_clamp) {
  std::vector<std::vector<int>> numbers;
  for (const auto& group : together(layout, joints)) {
    numbers.emplace_back();
    for (std::size_t r : group) {
      for (PlannedClamp& clamp : layout.rounds[r].clamps) {
        clamp.n = first_clamp++;
        numbers.back().push_back(clamp.n);
        stage.clamps.push_back(clamp);
      }
    }
  }
  return numbers;
}

}  // namespace

PlannedStage plan_stage(const StageInput& input, const StageWork& work, const PlanOptions& options,
                        int first_step, int first_clamp) {
  Timed best = timed(input, work, options, layout_for(input, work, options, Level::hold));
  // More clamps take longer: only a stage with time to spare is pressed fully.
  if (best.schedule.in_time() && comfortable(best) && best.layout.missing == 0 &&
      !asked(&options.stop)) {
    ClampLayout full = layout_for(input, work, options, Level::full);
    if (clamp_count(full) >= clamp_count(best.layout)) {
      Timed fuller = timed(input, work, options, std::move(full));
      if (worth_keeping(fuller)) {
        best = std::move(fuller);
      }
    }
  }
  std::vector<Locator> corners = set_corners(input, work, options, best);
  if (best.layout.fuller && best.layout.fuller->more_s <= best.schedule.slack_s) {
    best.layout.ways_out.push_back(best.layout.fuller->hold);
    best.layout.ways_out.push_back(best.layout.fuller->borrow);
  }
  PlannedStage planned;
  Stage numbered;
  std::string bench_reason;
  const auto numbers = number_clamps(best.layout, input.joints, numbered, first_clamp);
  if (best.schedule.status == Proof::impossible) {
    planned.impossible = impossible_reason(best.problem, best.schedule, work, input.job);
    planned.stage.status = Proof::impossible;
    for (const auto& unit : work.units) {
      planned.stage.parts.insert(planned.stage.parts.end(), unit.begin(), unit.end());
    }
    planned.stage.joints = work.joints;
  } else {
    const BenchSide bench = choose_bench_side(best.problem, best.schedule, work, input.standing);
    planned.stage = stage_from({best.schedule, best.problem, work, input.joints,
                                input.motions.folds(), best.demands, numbers, bench},
                               first_step);
    bench_reason = bench.why;
  }
  for (std::size_t i = 0; i < planned.stage.steps.size(); ++i) {
    planned.stage.steps[i].why = step_reason(planned.stage, i, input.joints, input.job);
  }
  if (options.explain && planned.impossible.empty()) {
    planned.stage.why = order_reasons(best.problem, best.schedule, work, input.joints, input.job);
    planned.stage.why.push_back(bench_reason);
  }
  planned.stage.clamps = std::move(numbered.clamps);
  planned.stage.locators = std::move(corners);
  for (const ClampRound& round : best.layout.rounds) {
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

}  // namespace planner
