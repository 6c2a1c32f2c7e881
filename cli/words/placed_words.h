// The user's own clamps: where they fall short and what mends it, in words.
#pragma once
#include <string>
#include <vector>

#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::words {

// One finding by itself: "front - left: no pressure at all".
std::string finding_text(const planner::plan::Plan& plan,
                         const planner::plan::PlacedFinding& finding);

// All findings of a trial; joints of one axis that fare alike are told of together, and where they
// are many by their number.
std::vector<std::string> finding_texts(const planner::plan::Plan& plan,
                                       const planner::plan::PlacedTrial& trial);

// "move no. 4 10 mm to the left"
std::string change_text(const planner::plan::Plan& plan, const planner::plan::PlacedChange& change);

// "from front to back: move no. 4 10 mm to the left"
std::string mend_text(const planner::plan::Plan& plan, const planner::plan::PlacedMend& mend);

// What every mend brings.
inline constexpr const char* kMendGain = "every joint on this axis is then held";

}  // namespace cli::words
