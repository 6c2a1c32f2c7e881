// What to carry to the bench before the glue is opened, an item a string.
#pragma once
#include <string>
#include <vector>

#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::model {

std::vector<std::string> fetch_items(const planner::plan::Plan& plan,
                                     const words::TextStyle& style);
// The same things, few lines: what of them the clamps' list says is left to it.
std::vector<std::string> brief_fetch_items(const planner::plan::Plan& plan,
                                           const words::TextStyle& style);

// "have 12", "have 6, SHORT by 4"
std::string owned_text(const planner::plan::InventoryRow& row);
// "6 heavy F clamps of 24 in (have 12)": a line a kind and opening.
std::string inventory_text(const planner::plan::Plan& plan, const planner::plan::InventoryRow& row,
                           const words::TextStyle& style);

}  // namespace cli::model
