// Several jobs with one rack: which work, and which clamp to buy next.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "cli/words/text_style.h"
#include "planner/advice/next_clamp.h"
#include "planner/plan/plan.h"

namespace cli::text {

bool all_work(std::span<const planner::plan::Plan> plans);

struct Purchases {
  std::vector<planner::advice::ClampPurchase> clamps;
  bool stopped = false;  // before every clamp was tried
};
// `jobs`: their names. REQUIRES: a plan for each.
std::string rack_sheet(const std::vector<std::string>& jobs, std::span<const planner::plan::Plan> plans,
                       const Purchases& buy, const words::TextStyle& style);

}  // namespace cli::text
