// The lists of a plan in few lines, for a tired person; whole they are in lists.h and wait_list.h.
#pragma once
#include <string>
#include <vector>

#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::model {

std::vector<std::string> brief_dry_fit_items(const planner::plan::Plan& plan,
                                             const words::TextStyle& style);
// This job's own matters, five at most, what can hurt first; then the usual ones in one item. Of six or
// more the first four, and how many more there are.
struct BriefWatchOut {
  std::vector<std::string> items;
  std::size_t more = 0;
};
BriefWatchOut brief_watch_out(const planner::plan::Plan& plan, const words::TextStyle& style);

}  // namespace cli::model
