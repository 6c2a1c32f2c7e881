// What to be told before the bottle opens, as sentences.
#pragma once
#include <string>

#include "planner/plan/plan.h"

namespace cli::words {

// Lower case, no full stop: "fingers out of closing joints".
std::string caution_text(const planner::plan::Plan& plan, const planner::plan::Caution& caution);

}  // namespace cli::words
