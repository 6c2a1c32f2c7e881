// Clamps and what they press, as text.
#pragma once
#include <string>
#include <vector>

#include "cli/text/page.h"
#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::text {

// A row a clamp.
void clamps_section(const planner::plan::Plan& plan, const words::TextStyle& style, Page& page);
// `lines`: the plan's own, or those of the user's clamps.
void pressure_section(const planner::plan::Plan& plan,
                      const std::vector<planner::plan::LinePressure>& lines,
                      const words::TextStyle& style, Page& page);

std::string unit_name(const words::Wording& wording);  // "inches", "mm"
// "front", "above": the side of the work that a clamp's bar is on.
std::string bar_word(const geometry::Direction& side);
// What the words for clamps' purposes mean, of those that the stage has: "firm = two thirds of ..."
std::vector<std::string> purpose_words(const planner::plan::Stage& stage);
// Where the corner clamps go, if there are any.
void corner_lines(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                  const words::TextStyle& style, Page& page);

}  // namespace cli::text
