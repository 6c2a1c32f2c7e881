// Clamps and what they press, on the bench sheet.
#pragma once
#include "cli/pictures/markup.h"
#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::html {

using pictures::Markup;

// Where each clamp of the stage goes, a row a clamp.
void clamp_table(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                 const words::TextStyle& style, Markup& html);
// A strip for each glue line that pressure is asked of.
void pressure_figures(const planner::plan::Plan& plan, const words::TextStyle& style, Markup& html);
// The user's own clamps, where the job places some: drawn, judged, mended.
void placed_figures(const planner::plan::Plan& plan, const words::TextStyle& style, Markup& html);

}  // namespace cli::html
