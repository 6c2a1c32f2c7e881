// What the shell is told.
#pragma once

namespace cli::terminal {

enum class ExitStatus {
  works = 0,          // the plan holds with what the shop has
  does_not_work = 1,  // it doesn't; the plan and the ways out are still printed
  bad_input = 2,      // the files or options are wrong; nothing was written
  program_fault = 3,    // a plan failed its own check; please send us the job file
  interrupted = 130,  // stopped by Ctrl-C: with the best found so far, or with nothing
};

}  // namespace cli::terminal
