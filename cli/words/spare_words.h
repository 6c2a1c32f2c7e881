// What of the rack is not used, in words.
#pragma once
#include <string>

#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::words {

// "held, not fully pressed: more clamps of the kinds on the rack wouldn't change that; ..."
std::string spare_text(const planner::plan::Plan& plan, const planner::plan::SpareNote& note);

}  // namespace cli::words
