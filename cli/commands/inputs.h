// The job and the shop of a run, from their files and the command line.
#pragma once
#include <optional>
#include <string>

#include "cli/terminal/options.h"
#include "cli/text/mistakes.h"
#include "planner/work/job.h"
#include "planner/work/shop.h"

namespace cli::commands {

struct Inputs {
  std::optional<planner::work::Job> job;  // both are there exactly when no diagnostic is an error
  std::optional<planner::work::Shop> shop;
  planner::base::Diagnostics diagnostics;
  text::InputTexts texts;
};
Inputs read_inputs(const terminal::Options& options);
// The job alone, where the shop doesn't matter.
Inputs read_job_input(const terminal::Options& options);

// Where the shop file is looked for: --shop, $GLUEUP_SHOP, then
// $XDG_CONFIG_HOME/glueup/shop.toml (~/.config where that is not set). The last may be missing;
// then nothing, and an unlimited rack is planned for.
std::optional<std::string> shop_file(const terminal::Options& options);
// The last of them, whether it is there or not.
std::optional<std::string> usual_shop_file();

}  // namespace cli::commands
