// The glue-up as a calendar file (RFC 5545): when each stage begins and when its clamps come off, each with
// an alarm.
#pragma once
#include <chrono>
#include <string>

#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::calendar {

// When the first glue is opened, by the clock on the wall: the file's times are local ones, in no zone.
using Moment = std::chrono::local_time<std::chrono::minutes>;

// Lines end in CR LF and are no longer than 75 bytes, as the standard asks. The same plan and moment give
// the same bytes.
std::string calendar_file(const planner::plan::Plan& plan, const words::TextStyle& style, Moment start);

bool is_calendar(const std::string& text);

}  // namespace cli::calendar
