#include "cli/rehearse/rehearsal_run.h"

#include <cmath>

#include <fmt/format.h>

#include "cli/words/words.h"

namespace cli::rehearse {

using planner::plan::Plan;
using planner::plan::Stage;
using planner::plan::Step;
using planner::rehearsal::LogLine;

RehearsalRun::RehearsalRun(const Plan& plan, const std::vector<LogLine>& log) {
  for (const Stage& stage : plan.stages) {
    for (const Step& step : stage.steps) {
      steps_.push_back({&stage, &step, 0, ""});
    }
  }
  for (const LogLine& line : log) {
    if (!line.end_s) {
      break;
    }
    steps_[at_].started_s = line.start_s.value_or(0);
    steps_[at_].note = line.note;
    next(*line.end_s);
  }
}

std::string RehearsalRun::misfit(const Plan& plan, const std::vector<LogLine>& log) {
  std::vector<const Step*> steps;
  for (const Stage& stage : plan.stages) {
    for (const Step& step : stage.steps) {
      steps.push_back(&step);
    }
  }
  if (log.size() > steps.size()) {
    return fmt::format("it has {} steps, the plan {}", log.size(), steps.size());
  }
  for (std::size_t i = 0; i < log.size(); ++i) {
    const LogLine& line = log[i];
    if (line.n != steps[i]->n) {
      return fmt::format("step {} is missing in it", steps[i]->n);
    }
    if (std::abs(line.planned_start_s - steps[i]->start_s) > 0.1 ||
        std::abs(line.planned_end_s - steps[i]->end_s) > 0.1) {
      return fmt::format("its step {} was planned for {} to {}, now it is {} to {}", line.n,
                         words::clock_text(line.planned_start_s),
                         words::clock_text(line.planned_end_s),
                         words::clock_text(steps[i]->start_s), words::clock_text(steps[i]->end_s));
    }
  }
  return "";
}

bool RehearsalRun::stage_ends() const {
  return !finished() && (at_ + 1 == steps_.size() || steps_[at_ + 1].stage != steps_[at_].stage);
}

LogLine RehearsalRun::line_of(const Placed& placed, std::optional<double> end_s) const {
  return {placed.step->n, placed.step->start_s, placed.step->end_s, placed.started_s,
          end_s,          placed.note};
}

LogLine RehearsalRun::next(double now_s) {
  const bool new_stage = stage_ends();
  const LogLine line = line_of(steps_[at_], now_s);
  ++at_;
  started_s_ = new_stage ? 0 : now_s;
  if (!finished()) {
    steps_[at_].started_s = started_s_;
  }
  return line;
}

bool RehearsalRun::stage_begins() const {
  return at_ == 0 || (!finished() && steps_[at_ - 1].stage != steps_[at_].stage);
}

bool RehearsalRun::back() {
  if (stage_begins()) {
    return false;
  }
  --at_;
  started_s_ = steps_[at_].started_s;
  return true;
}

void RehearsalRun::note(const std::string& text) {
  if (!finished()) {
    std::string& note = steps_[at_].note;
    note += (note.empty() ? "" : "; ") + text;
  }
}

LogLine RehearsalRun::running() const {
  return line_of(steps_[at_], std::nullopt);
}

}  // namespace cli::rehearse
