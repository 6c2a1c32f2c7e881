// The plan as text for a terminal or a pinned-up page: the verdict first, then what to do in the
// order it is done. At most 80 columns, complete in plain ASCII.
#pragma once
#include <string>
#include <vector>

#include "cli/words/text_style.h"
#include "planner/plan/plan.h"
#include "planner/stage/glue_trial.h"

namespace cli::text {

// What a tired person reads; with details all of it.
std::string text_sheet(const planner::plan::Plan& plan, const words::TextStyle& style);
// Do I own enough; of a job that places clamps: what those press.
std::string clamps_sheet(const planner::plan::Plan& plan, const words::TextStyle& style);
// How much, what to mix; with trials, the glues side by side.
std::string glue_sheet(const planner::plan::Plan& plan,
                       const std::vector<planner::stage::GlueTrial>& trials,
                       const words::TextStyle& style);

}  // namespace cli::text
