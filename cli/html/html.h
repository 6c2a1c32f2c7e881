// The bench sheet: one self-contained HTML file for a phone leaned against the vice or two printed
// pages. Whole without its script; the script adds the clock.
#pragma once
#include <string>

#include "cli/html/embedded.h"
#include "cli/text/text.h"

namespace cli::html {

std::string html_sheet(const planner::plan::Plan& plan, const words::TextStyle& style, Paper paper);

}  // namespace cli::html
