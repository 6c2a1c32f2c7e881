// The notes of a plan as sentences.
#pragma once
#include <string>

#include "planner/plan/plan.h"

namespace cli::words {

// Lower case, no full stop: "no glue in panel - left stile".
std::string note_text(const planner::plan::Plan& plan, const planner::plan::Note& note);

}  // namespace cli::words
