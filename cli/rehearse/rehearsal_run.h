// A rehearsal under way: which step runs, since when, and what goes into the log. Knows no terminal
// and no clock; the time is handed in.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "planner/rehearsal/rehearsal.h"

namespace cli::rehearse {

class RehearsalRun {
 public:
  // Goes on where `log` ends. REQUIRES: misfit(plan, log) is empty; the plan outlives it.
  RehearsalRun(const planner::plan::Plan& plan,
               const std::vector<planner::rehearsal::LogLine>& log);

  // Where the log's steps are not those of this plan, from the first on; empty where they are.
  static std::string misfit(const planner::plan::Plan& plan,
                            const std::vector<planner::rehearsal::LogLine>& log);

  bool finished() const { return at_ >= steps_.size(); }
  // REQUIRES: not finished.
  const planner::plan::Step& step() const { return *steps_[at_].step; }
  const planner::plan::Stage& stage() const { return *steps_[at_].stage; }
  std::size_t done() const { return at_; }
  std::size_t count() const { return steps_.size(); }
  // At a stage's first step, or at none.
  bool stage_begins() const;
  double started_s() const { return started_s_; }
  // The next step is the first of a later stage: its clock starts anew.
  bool stage_ends() const;

  // Ends the running step at `now_s` of its stage's clock; what to put into the log. The next one
  // runs from then on, or from 0 in a new stage.
  planner::rehearsal::LogLine next(double now_s);
  // Takes up the step before again, as if it had not ended. False at the first of a stage: the
  // clock of the one before is gone.
  bool back();
  void note(const std::string& text);
  // The running step as it is when the rehearsal is broken off: without an end.
  planner::rehearsal::LogLine running() const;

 private:
  struct Placed {
    const planner::plan::Stage* stage;
    const planner::plan::Step* step;
    double started_s = 0;
    std::string note;
  };
  planner::rehearsal::LogLine line_of(const Placed& placed, std::optional<double> end_s) const;
  std::vector<Placed> steps_;
  std::size_t at_ = 0;
  double started_s_ = 0;
};

}  // namespace cli::rehearse
