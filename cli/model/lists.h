// The lists of a plan, an item a string: what to check dry, to watch out for. Shared by the text and
// the bench sheet; what the text says briefly is in `brief_lists.h`.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::model {

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

// Where a clamp's line of action runs from the stage's corner: to the right, to the back, up; "-"
// along itself.
std::array<std::string, 3> clamp_place(const planner::plan::PlannedClamp& clamp,
                                       const geometry::Point& corner,
                                       const words::Wording& wording);

}  // namespace cli::model
