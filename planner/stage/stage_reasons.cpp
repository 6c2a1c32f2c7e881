#include "planner/stage/stage_reasons.h"

#include <algorithm>

#include "planner/order/order_reasons.h"

namespace planner::stage {
namespace {

// The parts of the units, unit by unit.
std::vector<work::PartId> parts_in(const base::UnitSet& units, const StageWork& work) {
  std::vector<work::PartId> parts;
  for (int u = units.lowest(); u >= 0; u = units.next(u)) {
    const auto& unit = work.units[static_cast<std::size_t>(u)];
    parts.insert(parts.end(), unit.begin(), unit.end());
  }
  return parts;
}

plan::TightestJoint where_time_goes(const order::TimeSpent& spent, const StageWork& work) {
  plan::TightestJoint out;
  out.joint = work.joints[static_cast<std::size_t>(spent.joint)];
  out.open = spent.open;
  out.used_s = spent.used_s;
  out.limit_s = spent.limit_s;
  out.spreading_s = spent.spreading_s;
  out.joining_s = spent.joining_s;
  out.snugging_s = spent.snugging_s;
  out.checking_s = spent.checking_s;
  out.tightening_s = spent.tightening_s;
  out.waiting_s = spent.waiting_s;
  return out;
}

plan::NextBestOrder against_next_best(const order::Schedule& schedule,
                                      const order::OtherOrder& other, const StageWork& work) {
  const order::PlannedJoin& join = schedule.joins[static_cast<std::size_t>(other.without)];
  return {parts_in(join.moving, work), parts_in(join.staying, work),
          static_cast<double>(schedule.slack_s - other.schedule.slack_s)};
}

// The straight ways in which one unit leaves another; nothing where the pair comes apart in many.
std::optional<plan::WaysApart> ways_of_pair(const order::AssemblyProblem& problem, int stays,
                                            int leaves, const StageWork& work) {
  constexpr std::size_t kMostTold = 2;
  plan::WaysApart pair{
      parts_in(base::UnitSet::of(stays), work), parts_in(base::UnitSet::of(leaves), work), {}};
  for (std::size_t d = 0; d < problem.removals.size(); ++d) {
    if (!problem.removals[d].folds &&
        problem.leave(static_cast<int>(d), leaves, stays) != order::kRefused) {
      pair.ways.push_back(problem.removals[d].direction);
    }
  }
  return pair.ways.size() > kMostTold ? std::nullopt : std::optional(std::move(pair));
}

plan::TooHeavy too_heavy(const order::ScheduleProblem& problem, const StageWork& work) {
  plan::TooHeavy out{order::kOnePersonLifts_g, {}, 0};
  if (!problem.weight_g.empty()) {
    const auto most = std::ranges::max_element(problem.weight_g);
    const auto unit = static_cast<int>(most - problem.weight_g.begin());
    out.heaviest = parts_in(base::UnitSet::of(unit), work);
    out.mass_g = *most;
  }
  return out;
}

plan::Locked locked(const order::ScheduleProblem& problem, const order::Schedule& schedule,
                    const StageWork& work) {
  base::UnitSet units;
  for (int unit : schedule.locked) {
    units.insert(unit);
  }
  plan::Locked out{parts_in(units, work), {}};
  constexpr std::size_t kMostTold = 5;
  for (int i : schedule.locked) {
    for (int j : schedule.locked) {
      if (i < j && out.pairs.size() < kMostTold && problem.assembly.touching(i, j)) {
        if (auto pair = ways_of_pair(problem.assembly, i, j, work)) {
          out.pairs.push_back(std::move(*pair));
        }
      }
    }
  }
  return out;
}

}  // namespace

plan::VerdictReason impossible_reason(const order::ScheduleProblem& problem,
                                      const order::Schedule& schedule, const StageWork& work) {
  switch (schedule.no_order) {
    case order::NoOrder::locked:
      return locked(problem, schedule, work);
    case order::NoOrder::too_heavy:
      return too_heavy(problem, work);
    case order::NoOrder::stopped:
      return plan::StoppedEarly{};
    case order::NoOrder::cut_short:
      return plan::SearchCutShort{};
  }
  return plan::SearchCutShort{};
}

std::vector<plan::OrderReason> order_reasons(const order::ScheduleProblem& problem,
                                             const order::Schedule& schedule,
                                             const StageWork& work) {
  std::vector<plan::OrderReason> why;
  if (schedule.tightest >= 0) {
    why.push_back(where_time_goes(time_spent(problem, schedule, schedule.tightest), work));
  }
  const auto other = next_best_order(problem, schedule);
  if (base::stop_requested(problem.assembly.stop)) {
    // the others weren't looked at long enough to be told of
  } else if (other) {
    why.push_back(against_next_best(schedule, *other, work));
  } else if (!schedule.joins.empty()) {
    why.push_back(plan::NoOtherOrder{});
  }
  if (schedule.status == plan::Proof::proven) {
    why.push_back(plan::NoneBetter{});
  } else {
    why.push_back(plan::MaybeBetter{});
  }
  return why;
}

}  // namespace planner::stage
