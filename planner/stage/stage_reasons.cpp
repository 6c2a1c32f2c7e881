#include "planner/stage/stage_reasons.h"

#include <algorithm>
#include <cmath>

#include "planner/base/side_words.h"
#include "planner/order/order_reasons.h"

namespace planner::stage {
namespace {

std::string names(const base::UnitSet& units, const StageWork& work, const work::Job& job) {
  std::string text;
  for (int u = units.lowest(); u >= 0; u = units.next(u)) {
    for (work::PartId part : work.units[static_cast<std::size_t>(u)]) {
      text += (text.empty() ? "" : ", ") + job.parts[part].name;
    }
  }
  return text;
}

void add_share(std::string& text, const char* what, int seconds) {
  if (seconds > 0) {
    text += (text.empty() ? "" : ", ") + std::string(what) + " " + base::seconds_text(seconds);
  }
}

std::string where_time_goes(const order::TimeSpent& spent, const std::string& name) {
  std::string shares;
  add_share(shares, "spreading", spent.spreading_s);
  add_share(shares, "joining", spent.joining_s);
  add_share(shares, "snugging", spent.snugging_s);
  add_share(shares, "checking", spent.checking_s);
  add_share(shares, "waiting", spent.waiting_s);
  return name + " is the tightest: " + base::seconds_text(spent.used_s) + " of its " +
         base::seconds_text(spent.limit_s) + (spent.open ? " open" : " total") + " time go into " +
         shares;
}

std::string against_next_best(const order::Schedule& schedule, const order::OtherOrder& other,
                              const StageWork& work, const work::Job& job) {
  const order::PlannedJoin& join = schedule.joins[static_cast<std::size_t>(other.without)];
  const int gain = schedule.slack_s - other.schedule.slack_s;
  std::string text = "the best order that doesn't join " + names(join.moving, work, job) + " to " +
                     names(join.staying, work, job) + " at once ";
  if (gain > 0) {
    return text + "has " + base::seconds_text(gain) + " less to spare";
  }
  return text + "has as much to spare; this one wipes less, or keeps the job file's order";
}

// "top rail leaves right stile only up"; nothing where the pair comes apart in many ways.
std::optional<std::string> ways_of_pair(const order::AssemblyProblem& problem, int i, int j,
                                        const std::string& one, const std::string& other) {
  constexpr std::size_t kMostTold = 2;
  std::vector<std::string> ways;
  for (std::size_t d = 0; d < problem.removals.size(); ++d) {
    if (!problem.removals[d].folds && problem.leave(static_cast<int>(d), i, j) != order::kRefused) {
      ways.push_back(base::way_word(problem.removals[d].direction));
    }
  }
  if (ways.size() > kMostTold) {
    return std::nullopt;
  }
  return ways.empty()       ? other + " can't leave " + one
         : ways.size() == 1 ? other + " leaves " + one + " only " + ways[0]
                            : other + " leaves " + one + " only " + ways[0] + " or " + ways[1];
}

std::string weight_words(int grams, base::Units units) {
  constexpr double kPound_g = 453.59237;
  return units == base::Units::inch ? std::to_string(std::lround(grams / kPound_g)) + " lb"
                                    : std::to_string(std::lround(grams / 1e3)) + " kg";
}

// ": 25 kg each; slab weighs 34 kg"
std::string heaviest(const order::ScheduleProblem& problem, const StageWork& work,
                     const work::Job& job) {
  if (problem.weight_g.empty()) {
    return "";
  }
  const auto most = std::ranges::max_element(problem.weight_g);
  const auto unit = static_cast<int>(most - problem.weight_g.begin());
  return ": " + weight_words(order::kOnePersonLifts_g, job.units) + " each; " +
         names(base::UnitSet::of(unit), work, job) + " weighs " + weight_words(*most, job.units);
}

}  // namespace

std::string impossible_reason(const order::ScheduleProblem& problem,
                              const order::Schedule& schedule, const StageWork& work,
                              const work::Job& job) {
  if (schedule.locked.empty()) {
    return schedule.reason + (schedule.too_heavy ? heaviest(problem, work, job) : "");
  }
  base::UnitSet locked;
  for (int unit : schedule.locked) {
    locked.insert(unit);
  }
  std::string text = "no way to put together " + names(locked, work, job) + ": ";
  constexpr int kMostTold = 5;
  int told = 0;
  for (int i : schedule.locked) {
    for (int j : schedule.locked) {
      const auto ways =
          i < j && told < kMostTold && problem.assembly.touching(i, j)
              ? ways_of_pair(problem.assembly, j, i, names(base::UnitSet::of(i), work, job),
                             names(base::UnitSet::of(j), work, job))
              : std::nullopt;
      text += ways ? (told++ == 0 ? "" : ", ") + *ways : "";
    }
  }
  return told == 0 ? text + "each is locked by the others" : text + "; so each locks the others in";
}

std::vector<std::string> order_reasons(const order::ScheduleProblem& problem,
                                       const order::Schedule& schedule, const StageWork& work,
                                       std::span<const work::Joint> joints, const work::Job& job) {
  std::vector<std::string> why;
  if (schedule.tightest >= 0) {
    const work::JointId id = work.joints[static_cast<std::size_t>(schedule.tightest)];
    why.push_back(where_time_goes(time_spent(problem, schedule, schedule.tightest),
                                  joint_name(joints[id], job)));
  }
  const auto other = next_best_order(problem, schedule);
  if (base::stop_requested(problem.assembly.stop)) {
    // the others weren't looked at long enough to be told of
  } else if (other) {
    why.push_back(against_next_best(schedule, *other, work, job));
  } else if (!schedule.joins.empty()) {
    why.push_back("there is no other order: everything else shuts a part out or wipes glue off");
  }
  why.push_back(schedule.status == plan::Proof::proven
                    ? "no order of this stage has more to spare; all were looked at or ruled out"
                    : "the search was cut short; an order with more to spare may exist");
  return why;
}

}  // namespace planner::stage
