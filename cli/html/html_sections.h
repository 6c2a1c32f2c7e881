// The sections of the bench sheet that are read rather than looked at.
#pragma once
#include <string>
#include <vector>

#include "cli/pictures/markup.h"
#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::html {

using pictures::Markup;

// ", stage 2" where there are several: names on a page must differ.
std::string of_stage(const planner::plan::Plan& plan, const planner::plan::Stage& stage);
void list(const char* title, const std::vector<std::string>& items, Markup& html);
// What folds away on a screen once the script runs, and stands open on paper and without it: close with
// html.close(). `level` is of its heading.
void open_fold(const char* level, const std::string& title, Markup& html);
// What to fetch and to check dry, each with a box to tick.
void checklist_section(const planner::plan::Plan& plan, const words::TextStyle& style,
                       Markup& html);
// Pictures, steps, limits and clamps of one stage. Steps and limits carry their numbers as data-
// attributes, which is all that the clock reads.
void stage_section(const planner::plan::Plan& plan, std::size_t stage,
                   const words::TextStyle& style, Markup& html);

}  // namespace cli::html
