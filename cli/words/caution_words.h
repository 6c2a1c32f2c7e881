// What to be told before the bottle opens, as sentences.
#pragma once
#include <string>

#include "planner/plan/plan.h"

namespace cli::words {

// Lower case, no full stop: "fingers out of closing joints".
std::string caution_text(const planner::plan::Plan& plan, const planner::plan::Caution& caution);

// Whether it is said at every glue-up, whatever the job.
bool is_usual(planner::plan::CautionKind kind);
// The usual ones in two lines, for a page that has room for no more.
extern const char* const kUsualCautions;

}  // namespace cli::words
