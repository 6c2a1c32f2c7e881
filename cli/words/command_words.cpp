#include "cli/words/command_words.h"

#include <algorithm>
#include <array>

namespace cli::words {
namespace {

constexpr const char* kOneJob = "the job file, or - for standard input";
constexpr const char* kPlanned = "0 it works; 1 it doesn't, as printed; 2 the input is wrong.";
constexpr const char* kDone = "0 done; 2 the input is wrong.";
constexpr std::array<CommandWords, 9> kCommands{{
    {Command::plan, "plan", "JOB", kOneJob, "the whole plan: order, clock, clamps, glue",
     "glueup plan chest.toml --start 14:30 --sheet chest.html", kPlanned},
    {Command::clamps, "clamps", "JOB...", "the job file; of several: which clamp to buy next",
     "do I own enough clamps, and where does each go", "glueup clamps jobs/*.toml", kPlanned},
    {Command::glue, "glue", "JOB", kOneJob, "how much glue, what to mix, which glue suits",
     "glueup glue chest.toml --temperature \"64 F\"", kPlanned},
    {Command::check, "check", "JOB", kOneJob, "the parts and the joints found between them",
     "glueup check chest.toml", kDone},
    {Command::create, "new", "KIND", "", "a job file to start from, or the shop's",
     "glueup new box --size \"14 x 9 x 8\" --units in -o chest.toml", kDone},
    {Command::rehearse, "rehearse", "JOB", "the job file",
     "the steps on a running clock, dry or live",
     "glueup rehearse chest.toml; then glueup rehearse chest.toml --learn", kDone},
    {Command::dry_fit, "dry-fit", "JOB", kOneJob, "what to cut and fix after the dry fit",
     "glueup dry-fit chest.toml --diagonals \"16 5/8, 16 11/16\"",
     "0 good; 1 fix it before the glue; 2 the input is wrong."},
    {Command::page, "page", "", "", "the planner as one HTML file for any browser, offline",
     "glueup page -o glueup.html", kDone},
    {Command::tables, "tables", "TABLE", "woods, glues, clamps or pressures",
     "the tables, each value with its source", "glueup tables woods", kDone},
}};

}  // namespace

const char* const kProgramFooter =
    "Example:\n"
    "  glueup new box --size \"14 x 9 x 8\" --units in -o chest.toml\n"
    "  glueup plan chest.toml\n"
    "Exit status: 0 works; 1 doesn't, as printed; 2 wrong input; 3 program fault.";

std::span<const CommandWords> command_words() {
  return kCommands;
}

const CommandWords* find_command(const std::string& name) {
  const auto found = std::find_if(kCommands.begin(), kCommands.end(),
                                  [&](const CommandWords& words) { return name == words.name; });
  return found == kCommands.end() ? nullptr : &*found;
}

}  // namespace cli::words
