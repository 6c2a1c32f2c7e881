// What a rehearsal took, step by step, and the pace learned from it.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "planner/plan/plan.h"

namespace planner::rehearsal {

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

// A pace as it was and as the log shows it: the median of what its steps took. `seen` steps count;
// `ignored` took over four times as long as planned or less than a quarter: an interruption, or a
// key pressed twice.
struct PaceChange {
  std::string key;  // of [pace]
  double old_value = 0, new_value = 0;
  std::string old_text, new_text;  // as the shop file writes them
  int seen = 0, ignored = 0;
};
// In the order of the shop file's keys; only those that a step of the log tells of. Steps that run
// side by side are left out: nobody knows whose key it was.
std::vector<PaceChange> learn_pace(const plan::Plan& plan, std::span<const LogLine> log,
                                   const work::Pace& pace);

// The shop file's text with the changes in its [pace], every other byte kept. Nothing where the
// file writes its pace in a way that can't be changed safely.
std::optional<std::string> with_pace(const std::string& file, const std::string& text,
                                     std::span<const PaceChange> changes);

// Middle one of the values; the mean of the middle two. REQUIRES: there is one.
double median(std::vector<double> values);

}  // namespace planner::rehearsal
