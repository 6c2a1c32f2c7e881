// Any bytes as a rehearsal's log: every line that is read is written and read again the same, and
// the pace it teaches is one that a shop file may hold.
#include <cmath>

#include "planner/rehearsal/learned_pace.h"
#include "tests/fuzz/fuzz_check.h"

namespace {

// A spread, a join, a snug and a check: a step of every sort that a pace is learned from.
planner::plan::Plan steps() {
  planner::plan::Plan plan;
  planner::plan::Stage stage;
  using planner::plan::StepKind;
  for (const StepKind kind : {StepKind::spread, StepKind::join, StepKind::snug, StepKind::check,
                              StepKind::tighten, StepKind::wait, StepKind::cauls}) {
    planner::plan::Step step;
    step.n = static_cast<int>(stage.steps.size()) + 1;
    step.kind = kind;
    step.start_s = step.n * 60;
    step.end_s = step.start_s + 30;
    step.people = {1};
    step.clamps = {1, 2};
    stage.steps.push_back(step);
  }
  stage.clamps.resize(2);
  for (planner::plan::PlannedClamp& clamp : stage.clamps) {
    clamp.kind = "f_heavy";
  }
  plan.stages.push_back(stage);
  return plan;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  static const planner::plan::Plan kPlan = steps();
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const planner::rehearsal::LogReading read = planner::rehearsal::read_log("log.txt", text);
  fuzz::check(read.diagnostics, text);
  std::string written;
  for (const planner::rehearsal::LogLine& line : read.lines) {
    written += planner::rehearsal::to_text(line);
    written += written.back() == '\n' ? "" : "\n";
  }
  const planner::rehearsal::LogReading again = planner::rehearsal::read_log("log.txt", written);
  fuzz::require(again.lines.size() == read.lines.size(), "a log is read again as it was written");
  for (const planner::rehearsal::PaceChange& change :
       planner::rehearsal::learn_pace(kPlan, read.lines, planner::work::Pace{})) {
    fuzz::require(std::isfinite(change.new_value) && change.new_value > 0,
                  "a learned pace is a time");
  }
  return 0;
}
