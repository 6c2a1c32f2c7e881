#include "cli/commands/commands.h"

namespace cli {

ExitStatus run_command(const Options& options) {
  switch (options.command) {
    case Command::tables:
      return run_tables(options);
    case Command::create:
      return run_new(options);
    case Command::fit:
      return run_fit(options);
    case Command::rehearse:
      return run_rehearse(options);
    case Command::plan:
    case Command::clamps:
      if (options.jobs.size() > 1) {
        return run_clamps_of_jobs(options);
      }
      break;
    case Command::glue:
    case Command::check:
      break;
  }
  return run_job(options);
}

}  // namespace cli
