#include "cli/commands/commands.h"
#include "cli/output.h"

int main(int argc, char** argv) {
  const cli::CommandLine line =
      cli::parse_command_line(std::vector<std::string>(argv + 1, argv + argc));
  if (!line.options) {
    cli::complain(line.err);
    const bool printed = cli::print(line.out);
    return static_cast<int>(line.err.empty() && printed ? cli::ExitStatus::works
                                                        : cli::ExitStatus::bad_input);
  }
  return static_cast<int>(line.options->command == cli::Command::tables
                              ? cli::run_tables(*line.options)
                              : cli::run_job(*line.options));
}
