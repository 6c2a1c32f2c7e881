// A rehearsal on the terminal: the steps one by one, a running clock, keys.
#pragma once
#include <optional>

#include "cli/rehearse/rehearsal_log.h"
#include "cli/rehearse/rehearsal_run.h"
#include "cli/terminal/exit_status.h"
#include "cli/terminal/options.h"

namespace cli::rehearse {

// Until the last step is done or the user stops. `began`: when the running stage's glue was opened,
// where it was; seconds since 1970.
terminal::ExitStatus run_session(const planner::plan::Plan& plan, const terminal::Options& options,
                                 RehearsalLog& log, RehearsalRun& run, std::optional<double> began);

// As the user may type it again.
std::string same_command(const terminal::Options& options);

}  // namespace cli::rehearse
