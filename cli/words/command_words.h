// The commands as their help tells of them.
#pragma once
#include <span>
#include <string>

namespace cli::words {

enum class Command { plan, clamps, glue, check, create, rehearse, dry_fit, page, tables };

struct CommandWords {
  Command command;
  const char* name;
  const char* subject;  // of its usage line; empty where it has none
  const char* reads;    // what the subject is; of `new` its help lists the kinds
  const char* what;     // it answers
  const char* example;
  const char* statuses;  // it can end with
};
std::span<const CommandWords> command_words();
const CommandWords* find_command(const std::string& name);  // null where there is none

// Under the help of the whole program: first steps and all exit statuses.
extern const char* const kProgramFooter;

}  // namespace cli::words
