// The values of the command line's options, from text to what they mean.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "cli/terminal/options.h"

namespace cli::terminal {

// What the parser hands over before it is looked at: every value as text, so that we word its
// mistakes.
struct RawOptions {
  std::vector<std::string> jobs;
  std::string table, kind, shop, json, sheet, paper, people, stages, from_stage, temperature, humidity, glue, units,
      start, calendar, out, size, species, log, speed, openings, diagonals, color = "auto";
  bool expand = false, explain = false, details = false, full = false, no_limit = false, quiet = false, ascii = false,
       force = false, learn = false, live = false;
};

struct Mistake {
  std::string message;
};

// Every value but the subject's (job, table, kind) and --json's. The first one that can't be.
std::optional<Mistake> read_values(const RawOptions& raw, Options& options);

}  // namespace cli::terminal
