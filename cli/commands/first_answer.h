// The first good plan, told while the whole one is still looked for.
#pragma once
#include <atomic>
#include <thread>

#include "cli/commands/inputs.h"
#include "cli/terminal/progress.h"
#include "planner/stage/plan_options.h"

namespace cli::commands {

// Works beside its maker while it lives, where somebody sees the line; a plan that fails its own check is
// not told. `inputs` and `progress` outlive it. REQUIRES: a job and a shop were read.
class FirstAnswer {
 public:
  FirstAnswer(const Inputs& inputs, const planner::stage::PlanOptions& options,
              terminal::Progress& progress);
  ~FirstAnswer();
  FirstAnswer(const FirstAnswer&) = delete;
  FirstAnswer& operator=(const FirstAnswer&) = delete;

 private:
  std::atomic<bool> over_{false};
  std::thread thread_;  // last: it uses the other
};

}  // namespace cli::commands
