// The steps in which clamps are put on and drawn, as sentences.
#pragma once
#include <string>

#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::words {

// "Snug clamps 1-4 along: joints closed, no more." What a kind wants beyond that is said: wooden
// jaws stay parallel, springs aren't tightened.
std::string snug_sentence(const planner::plan::Stage& stage, const planner::plan::Step& step,
                          const Wording& wording);
std::string tighten_sentence(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                             const planner::plan::Step& step, const Wording& wording);

}  // namespace cli::words
