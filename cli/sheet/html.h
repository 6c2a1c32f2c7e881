// The bench sheet: one self-contained HTML file for a phone leaned against the vice or two printed
// pages. Whole without its script; the script adds the clock.
#pragma once
#include <string>

#include "cli/sheet/embedded.h"
#include "cli/sheet/text.h"

namespace cli {

std::string html_sheet(const planner::Plan& plan, const TextStyle& style, Paper paper);

}  // namespace cli
