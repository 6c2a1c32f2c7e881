// The commands, a file each. Each returns what the shell is told.
#pragma once
#include "cli/exit_status.h"
#include "cli/options.h"

namespace cli {

// plan, clamps, glue and check: one plan, four sheets of it.
ExitStatus run_job(const Options& options);
// clamps of several jobs: the one clamp to buy next. REQUIRES: two jobs or more.
ExitStatus run_clamps_of_jobs(const Options& options);
ExitStatus run_tables(const Options& options);
ExitStatus run_new(const Options& options);
ExitStatus run_fit(const Options& options);
ExitStatus run_rehearse(const Options& options);

ExitStatus run_command(const Options& options);  // whichever it is

}  // namespace cli
