// The lists of a plan, an item a string: what to fetch, to check dry, to watch out for. Shared by
// the text and the bench sheet.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::model {

std::vector<std::string> fetch_items(const planner::plan::Plan& plan,
                                     const words::TextStyle& style);
std::vector<std::string> dry_fit_items(const planner::plan::Plan& plan,
                                       const words::TextStyle& style);
// What is done minutes before the clock starts: the end grain sized, the glue mixed or heated.
std::vector<std::string> just_before_items(const planner::plan::Plan& plan);
// What moves across the grain of what; joints where one part moves alike are told together.
std::vector<std::string> cross_grain_items(const planner::plan::Plan& plan,
                                           const words::TextStyle& style);
std::vector<std::string> watch_out_items(const planner::plan::Plan& plan,
                                         const words::TextStyle& style);
// The same in two: what keeps people from harm, and the rest.
struct WatchOut {
  std::vector<std::string> harm, rest;
};
WatchOut watch_out_parted(const planner::plan::Plan& plan, const words::TextStyle& style);
std::vector<std::string> rescue_items(const planner::plan::Plan& plan,
                                      const words::TextStyle& style);

// "have 12", "have 6, SHORT by 4"
std::string owned_text(const planner::plan::InventoryRow& row);
// "6 heavy F clamps of 24 in (have 12)": a line a kind and opening.
std::string inventory_text(const planner::plan::Plan& plan, const planner::plan::InventoryRow& row,
                           const words::TextStyle& style);

// Where a clamp's line of action runs from the stage's corner: to the right, to the back, up; "-"
// along itself.
std::array<std::string, 3> clamp_place(const planner::plan::PlannedClamp& clamp,
                                       const geometry::Point& corner,
                                       const words::Wording& wording);

}  // namespace cli::model
