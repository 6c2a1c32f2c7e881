// The notes of a plan as sentences.
#pragma once
#include <string>

#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::words {

// Lower case, no full stop: "no glue in panel - left stile".
// "compare the 3 ways from corner to corner: each 346 mm outside; ..."
std::string ring_true_text(const planner::plan::RingTrueNote& note, const Wording& wording);

std::string note_text(const planner::plan::Plan& plan, const planner::plan::Note& note);

}  // namespace cli::words
