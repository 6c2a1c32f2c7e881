#include "planner/stage/clamp_numbers.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace planner::stage {
namespace {

std::vector<plan::PlannedClamp*> all_clamps(clamps::layout::ClampLayout& layout) {
  std::vector<plan::PlannedClamp*> all;
  for (clamps::layout::PressingAxis& round : layout.rounds) {
    for (plan::PlannedClamp& clamp : round.clamps) {
      all.push_back(&clamp);
    }
  }
  return all;
}

// Plies on a form are drawn down from the middle out, so that each slides on the next.
void set_from_the_middle(const std::vector<plan::PlannedClamp*>& all, clamps::bodies::ClampIds& round) {
  if (round.empty() || all[round.front()]->form_mm <= 0) {
    return;
  }
  const geometry::Direction along = all[round.front()]->pad_along;
  geometry::Extent run{1e300, -1e300};
  for (const std::size_t i : round) {
    const double at = dot(all[i]->at, along);
    run = {std::min(run.lo, at), std::max(run.hi, at)};
  }
  const auto off_mm = [&](std::size_t i) {
    return std::round(std::abs(dot(all[i]->at, along) - (run.lo + run.hi) / 2) * 1e3);
  };
  std::ranges::stable_sort(round, {}, off_mm);
}

// True where a group goes on after `other`, or after one that does.
bool waits_for(const std::vector<StageDemand>& groups, int group, int other) {
  const std::vector<int>& after = groups[static_cast<std::size_t>(group)].after;
  return std::any_of(after.begin(), after.end(),
                     [&](int g) { return g == other || waits_for(groups, g, other); });
}

}  // namespace

SettingRounds::SettingRounds(const clamps::layout::ClampLayout& layout,
                             std::span<const ClampGroup> groups, const work::Shop& shop) {
  std::vector<clamps::bodies::StandingClamp> standing;
  std::vector<geometry::Direction> sides;
  std::vector<std::size_t> first_of_round;
  for (const clamps::layout::PressingAxis& round : layout.rounds) {
    first_of_round.push_back(standing.size());
    for (const plan::PlannedClamp& clamp : round.clamps) {
      standing.push_back(clamps::bodies::standing_clamp(clamp, shop));
      sides.push_back(clamp.bar_side);
    }
  }
  for (const ClampGroup& group : groups) {
    clamps_.emplace_back();
    for (const std::size_t round : group) {
      for (std::size_t i = 0; i < layout.rounds[round].clamps.size(); ++i) {
        clamps_.back().push_back(first_of_round[round] + i);
      }
    }
  }
  ways_ = clamps::bodies::ClampWays(standing, sides);
}

std::vector<clamps::bodies::ClampIds> SettingRounds::rounds(std::span<const int> groups) const {
  std::vector<clamps::bodies::ClampIds> out;
  for (const int g : groups) {
    out.push_back(clamps_[static_cast<std::size_t>(g)]);
  }
  return out;
}

bool SettingRounds::let_in(std::span<const int> order, std::vector<StageDemand>& groups) const {
  for (const clamps::bodies::EarlierRound& move : earlier_rounds(ways_, rounds(order))) {
    const int early = order[move.round], late = order[move.before];
    if (!waits_for(groups, early, late)) {
      groups[static_cast<std::size_t>(late)].after.push_back(early);
      return true;
    }
  }
  return false;
}

clamps::bodies::SettingOrder SettingRounds::order(std::span<const int> groups) const {
  return setting_order(ways_, rounds(groups));
}

std::vector<int> rounds_in_order(const order::Schedule& schedule, std::size_t groups) {
  std::vector<int> order;
  for (const order::PlannedStep& step : schedule.steps) {
    // A round without clamps is nobody's.
    if (step.kind == plan::StepKind::snug && step.group < static_cast<int>(groups)) {
      order.push_back(step.group);
    }
  }
  if (order.empty()) {
    order.resize(groups);
    std::iota(order.begin(), order.end(), 0);
  }
  return order;
}

std::vector<std::vector<int>> number_clamps(const SettingRounds& setting,
                                            std::span<const int> order, int first,
                                            clamps::layout::ClampLayout& layout,
                                            std::vector<plan::PlannedClamp>& clamps) {
  clamps::bodies::SettingOrder set = setting.order(order);
  const std::vector<plan::PlannedClamp*> all = all_clamps(layout);
  for (clamps::bodies::ClampIds& round : set.rounds) {
    set_from_the_middle(all, round);
  }
  std::vector<std::vector<int>> numbers(order.size());
  for (std::size_t k = 0; k < order.size(); ++k) {
    for (const std::size_t i : set.rounds[k]) {
      all[i]->n = first;
      numbers[static_cast<std::size_t>(order[k])].push_back(first++);
    }
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    all[i]->meets = all[i]->meets > 0 ? all[static_cast<std::size_t>(all[i]->meets) - 1]->n : 0;
    all[i]->laid_before = set.laid_before[i] ? all[*set.laid_before[i]]->n : 0;
  }
  for (const clamps::bodies::Hemmed& h : set.hemmed) {
    all[h.clamp]->meets = all[h.clamp]->meets > 0 ? all[h.clamp]->meets : all[h.behind]->n;
  }
  for (const clamps::bodies::ClampIds& round : set.rounds) {
    for (const std::size_t i : round) {
      clamps.push_back(*all[i]);
    }
  }
  return numbers;
}

}  // namespace planner::stage
