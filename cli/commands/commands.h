// The commands, a file each. Each returns what the shell is told.
#pragma once
#include "cli/terminal/exit_status.h"
#include "cli/terminal/options.h"

namespace cli::commands {

// plan, clamps, glue and check: one plan, four sheets of it.
terminal::ExitStatus run_job(const terminal::Options& options);
// clamps of several jobs: the one clamp to buy next. REQUIRES: two jobs or more.
terminal::ExitStatus run_clamps_of_jobs(const terminal::Options& options);
terminal::ExitStatus run_tables(const terminal::Options& options);
terminal::ExitStatus run_new(const terminal::Options& options);
terminal::ExitStatus run_dry_fit(const terminal::Options& options);
terminal::ExitStatus run_page(const terminal::Options& options);
terminal::ExitStatus run_rehearse(const terminal::Options& options);

terminal::ExitStatus run_command(const terminal::Options& options);  // whichever it is

}  // namespace cli::commands
