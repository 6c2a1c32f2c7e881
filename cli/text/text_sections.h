// The longer sections of the text sheet.
#pragma once
#include "cli/text/page.h"
#include "cli/text/text.h"

namespace cli::text {

void verdict_section(const planner::plan::Plan& plan, const words::TextStyle& style, Page& page);
void ways_out_section(const planner::plan::Plan& plan, Page& page);  // nothing where there are none
void glue_up_section(const planner::plan::Plan& plan, const words::TextStyle& style, Page& page);
// A stage's joints on a ruler of minutes, against their limits.
void timeline_section(const planner::plan::Plan& plan, std::size_t stage, Page& page);
void clamps_section(const planner::plan::Plan& plan, const words::TextStyle& style, Page& page);
// `lines`: the plan's own, or those of the user's clamps.
void pressure_section(const planner::plan::Plan& plan,
                      const std::vector<planner::plan::LinePressure>& lines,
                      const words::TextStyle& style, Page& page);
// REQUIRES: the job places clamps.
void placed_section(const planner::plan::Plan& plan, const words::TextStyle& style, Page& page);

}  // namespace cli::text
