// What a rehearsal took, step by step.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "planner/plan/plan.h"

namespace planner::rehearsal {

// To a tenth of a second, a whole number without: "12.5", "12".
std::string tenths(double seconds);

// One step as it went. Times in seconds from the first glue of its stage.
struct LogLine {
  int n = 0;  // the step's number
  double planned_start_s = 0, planned_end_s = 0;
  std::optional<double> start_s, end_s;
  std::string note;
};

// "n <tab> planned start <tab> planned end <tab> start <tab> end <tab> note", as the bench sheet
// writes it too. Tabs and line ends in the note become blanks.
std::string to_text(const LogLine& line);

struct LogReading {
  std::vector<LogLine> lines;  // by n; of several lines for one step the last counts
  base::Diagnostics diagnostics;
};
// Lines that start with # are for people. A last line that a kill cut off before its note is left
// out.
LogReading read_log(const std::string& file, std::string_view text);

}  // namespace planner::rehearsal
