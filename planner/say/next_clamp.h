// Over several jobs: which clamp to buy next.
#pragma once
#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "planner/plan/plan.h"

namespace planner::say {

// So many more of a kind and opening, and the jobs that work with them and not without.
struct ClampPurchase {
  std::string kind;
  double opening_mm = 0;
  int count = 0;                   // what the neediest of `mends` wants
  std::vector<std::size_t> mends;  // by job
};

// Whether a job works with this shop.
using JobWorks = std::function<bool(std::size_t job, const work::Shop& shop)>;

// Tries every kind and opening that some job is short of on all jobs that fail for want of clamps,
// each as often as it takes. The one that turns most jobs from no to yes comes first; of equals the
// one that wants fewest, then the shortest, then the table's earlier kind. Those that mend nothing
// are left out. `plans`: of the jobs with `shop`.
std::vector<ClampPurchase> clamps_to_buy(std::span<const plan::Plan> plans, const work::Shop& shop,
                                         const JobWorks& works);

// The shop with so many more of a clamp, as the clamp table has it.
work::Shop with_more(work::Shop shop, const std::string& kind, double opening_mm, int count);

}  // namespace planner::say
