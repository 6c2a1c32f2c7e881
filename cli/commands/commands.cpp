#include "cli/commands/commands.h"

namespace cli::commands {

terminal::ExitStatus run_command(const terminal::Options& options) {
  switch (options.command) {
    case words::Command::tables:
      return run_tables(options);
    case words::Command::create:
      return run_new(options);
    case words::Command::dry_fit:
      return run_dry_fit(options);
    case words::Command::page:
      return run_page(options);
    case words::Command::rehearse:
      return run_rehearse(options);
    case words::Command::plan:
    case words::Command::clamps:
      if (options.jobs.size() > 1) {
        return run_clamps_of_jobs(options);
      }
      break;
    case words::Command::glue:
    case words::Command::check:
      break;
  }
  return run_job(options);
}

}  // namespace cli::commands
