// The pace that a rehearsal shows, and the shop file with it.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "planner/plan/plan.h"
#include "planner/rehearsal/rehearsal.h"
#include "planner/work/pace.h"

namespace planner::rehearsal {

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
