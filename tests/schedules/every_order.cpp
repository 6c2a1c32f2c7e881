#include "tests/schedules/every_order.h"

#include <algorithm>

using namespace planner;

namespace tests {

EveryOrder::EveryOrder(const order::ScheduleProblem& problem) : problem_(problem) {
  for (int u = 0; u < problem.assembly.units; ++u) {
    groups_.push_back(base::UnitSet::of(u));
  }
  extend();
}

bool EveryOrder::joins(const base::UnitSet& a, const base::UnitSet& b) const {
  const order::AssemblyProblem& p = problem_.assembly;
  bool touch = false, any = false;
  for (int d = 0; d < static_cast<int>(p.removals.size()); ++d) {
    bool free = true;
    for (int i = a.lowest(); i >= 0; i = a.next(i)) {
      for (int j = b.lowest(); j >= 0; j = b.next(j)) {
        free = free && p.leave(d, i, j) != order::kRefused;
        touch = touch || p.touching(i, j);
      }
    }
    any = any || free;
  }
  return any && touch;
}

void EveryOrder::extend() {
  if (groups_.size() == 1) {
    const order::Schedule s = solve_schedule(problem_);
    if (s.status != plan::Proof::impossible) {
      ++orders_;
      best_s_ = std::max(best_s_, s.slack_s);
    }
    return;
  }
  const std::vector<base::UnitSet> before = groups_;
  for (std::size_t a = 0; a < before.size(); ++a) {
    for (std::size_t b = a + 1; b < before.size(); ++b) {
      if (!joins(before[a], before[b])) {
        continue;
      }
      problem_.given_joins.emplace_back(before[a], before[b]);
      groups_[a] = before[a] | before[b];
      groups_.erase(groups_.begin() + static_cast<std::ptrdiff_t>(b));
      extend();
      groups_ = before;
      problem_.given_joins.pop_back();
    }
  }
}

}  // namespace tests
