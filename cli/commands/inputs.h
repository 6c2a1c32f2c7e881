// The job and the shop of a run, from their files and the command line.
#pragma once
#include <optional>
#include <string>

#include "cli/options.h"
#include "planner/job.h"
#include "planner/shop.h"

namespace cli {

struct Inputs {
  std::optional<planner::Job> job;  // both are there exactly when no diagnostic is an error
  std::optional<planner::Shop> shop;
  planner::Diagnostics diagnostics;
  std::string job_name, job_text, shop_text;  // for quoting the line that is wrong
};
Inputs read_inputs(const Options& options);
// The job alone, where the shop doesn't matter.
Inputs read_job_input(const Options& options);

// Where the shop file is looked for: --shop, $GLUEUP_SHOP, then
// $XDG_CONFIG_HOME/glueup/shop.toml (~/.config where that is not set). The last may be missing;
// then nothing, and an unlimited rack is planned for.
std::optional<std::string> shop_file(const Options& options);
// The last of them, whether it is there or not.
std::optional<std::string> usual_shop_file();

// Each mistake with the line it is on and a mark under it:
//   job.toml:12:11: no wood "chery" in the table
//      12 | species = "chery"
//         |           ^
//     write "black_cherry"
std::string diagnostics_text(const planner::Diagnostics& diagnostics, const Inputs& inputs,
                             bool with_warnings);

}  // namespace cli
