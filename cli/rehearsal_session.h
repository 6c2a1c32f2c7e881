// A rehearsal on the terminal: the steps one by one, a running clock, keys.
#pragma once
#include <optional>

#include "cli/exit_status.h"
#include "cli/options.h"
#include "cli/rehearsal_log.h"
#include "cli/rehearsal_run.h"

namespace cli {

// Until the last step is done or the user stops. `began`: when the running stage's glue was opened,
// where it was; seconds since 1970.
ExitStatus run_session(const planner::Plan& plan, const Options& options, RehearsalLog& log,
                       RehearsalRun& run, std::optional<double> began);

// As the user may type it again.
std::string same_command(const Options& options);

}  // namespace cli
