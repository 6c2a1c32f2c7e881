// The plan as text for a terminal or a pinned-up page: the verdict first, then what to do in the
// order it is done. At most 80 columns, complete in plain ASCII.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "cli/words.h"
#include "planner/glue_trial.h"
#include "planner/plan.h"

namespace cli {

struct TextStyle {
  Wording wording;
  bool colour = false;
  bool explain = false;             // each stage, step and clamp with its reason
  std::optional<int> start_minute;  // the time of day the glue is opened, minutes from midnight
};

std::string text_sheet(const planner::Plan& plan, const TextStyle& style);  // all of it
// Do I own enough; of a job that places clamps: what those press.
std::string clamps_sheet(const planner::Plan& plan, const TextStyle& style);
// How much, what to mix; with trials, the glues side by side.
std::string glue_sheet(const planner::Plan& plan, const std::vector<planner::GlueTrial>& trials,
                       const TextStyle& style);
// Parts and joints found, gaps, what no glue holds, lines across the grain, what to mend first.
std::string check_sheet(const planner::Plan& plan, const TextStyle& style);

}  // namespace cli
