// The command line: what the user asked for, or what is wrong with it.
#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "cli/html/embedded.h"
#include "cli/words/command_words.h"
#include "planner/work/job.h"

namespace cli::terminal {

enum class Colour { automatic, always, never };

struct Options {
  words::Command command = words::Command::plan;
  std::string job;                   // a path, or "-" for standard input
  std::vector<std::string> jobs;     // of `clamps`: all of them, the first is `job`
  std::string table;                 // of `tables`: woods, glues, clamps or pressures
  std::optional<std::string> shop;   // --shop
  std::optional<std::string> json;   // --json: a path, or "-" for standard output
  std::optional<std::string> sheet;  // --sheet: a path for the bench sheet
  html::Paper paper = html::Paper::a4;
  std::optional<int> people;                      // 1 to 4
  int stages = 0;                                 // 1 to 12; 0: as many as are best
  int from_stage = 1;                             // those before are glued and dry
  std::optional<double> temperature_C, humidity;  // of the shop; humidity 0 to 1
  std::optional<std::string> glue;
  std::optional<planner::base::Units> units;
  std::optional<int> start_minute;  // from midnight
  std::optional<std::chrono::year_month_day> start_day;
  std::optional<std::string> calendar;  // --calendar: a path
  Colour colour = Colour::automatic;
  bool expand = false;  // of `check`: the job part by part
  bool explain = false, details = false, full = false, no_limit = false, quiet = false, ascii = false;
  std::optional<std::string> out;  // of `new` and `page`: a path; standard output without
  // Of `new`.
  std::string kind;                    // box, panel ... or shop
  std::vector<std::string> size;       // lengths as text
  std::optional<std::string> species;  // as the user has it
  bool force = false;                  // write over a file that is there
  // Of `dry-fit`: lengths as text, in place of the job's.
  std::vector<std::string> openings, diagonals;
  // Of `rehearse`.
  std::optional<std::string> log;
  bool live = false, learn = false;
  double speed = 1;  // of the clock
};

// Either what was asked for, or a text to print and the program's end: help and version on standard
// output, a mistake on standard error.
struct CommandLine {
  std::optional<Options> options;
  std::string out, err;
  std::string notice;  // of words that are called otherwise now, a line each; --quiet leaves it out
};
CommandLine parse_command_line(std::vector<std::string> arguments);

// The help of a command, or of the program for "".
std::string help_text(const std::string& command);

}  // namespace cli::terminal
