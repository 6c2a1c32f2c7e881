// The sections of the bench sheet.
#pragma once
#include <string>
#include <vector>

#include "cli/html/markup.h"
#include "cli/html/svg.h"
#include "cli/text/text.h"

namespace cli::html {

// ", stage 2" where there are several: names on a page must differ.
std::string of_stage(const planner::plan::Plan& plan, const planner::plan::Stage& stage);
void list(const char* title, const std::vector<std::string>& items, Markup& html);
void figure(const std::string& svg, const std::string& caption, Markup& html,
            const char* kind = "");
// What to fetch and to check dry, each with a box to tick.
void checklist_section(const planner::plan::Plan& plan, const words::TextStyle& style,
                       Markup& html);
// Pictures, steps, limits and clamps of one stage. Steps and limits carry their numbers as data-
// attributes, which is all that the clock reads.
void stage_section(const planner::plan::Plan& plan, std::size_t stage,
                   const words::TextStyle& style, Markup& html);
// Order, timeline and clamps of the stage, drawn.
void stage_pictures(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                    const words::TextStyle& style, Markup& html);
// Each part that gets glue, opened out, with the marks of its joints' ends.
void spreading_section(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                       Markup& html);
// On paper only: clamp marks at full size.
void strips_section(const planner::plan::Plan& plan, const words::TextStyle& style, Markup& html);
// Where each clamp of the stage goes, a row a clamp.
void clamp_table(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                 const words::TextStyle& style, Markup& html);
// A picture for each way that clamps press.
void clamp_pictures(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                    const words::TextStyle& style, Markup& html);
// A strip for each glue line that pressure is asked of.
void pressure_figures(const planner::plan::Plan& plan, const words::TextStyle& style, Markup& html);
// The user's own clamps, where the job places some: drawn, judged, mended.
void placed_figures(const planner::plan::Plan& plan, const words::TextStyle& style, Markup& html);

}  // namespace cli::html
