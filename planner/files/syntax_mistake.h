// What the TOML parser says of a line it cannot read, in words that say what to write instead.
#pragma once
#include <string>
#include <string_view>

#include "planner/base/diagnostic.h"

namespace planner::files {

// `said` is the parser's own description, `line` the line it stopped at.
base::Diagnostic syntax_mistake(const base::Place& place, std::string_view said,
                                std::string_view line);

// Whether `said` is about a key or table that the file has already.
bool is_repetition(std::string_view said);

}  // namespace planner::files
