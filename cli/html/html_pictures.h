// The pictures of the bench sheet.
#pragma once
#include <string>

#include "cli/pictures/markup.h"
#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::html {

using pictures::Markup;

void figure(const std::string& svg, const std::string& caption, Markup& html,
            const char* kind = "");
// Order and timeline of the stage, drawn.
void stage_pictures(const planner::plan::Plan& plan, const planner::plan::Stage& stage, Markup& html);
// Each part that gets glue, opened out, with the marks of its joints' ends.
void spreading_section(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                       Markup& html);
// On paper only: clamp marks at full size.
void strips_section(const planner::plan::Plan& plan, const words::TextStyle& style, Markup& html);
// A picture for each way that clamps press.
void clamp_pictures(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                    const words::TextStyle& style, Markup& html);

}  // namespace cli::html
