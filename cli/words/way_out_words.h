// Ways out of a plan that doesn't work, in words.
#pragma once
#include <string>

#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::words {

struct WayOutWords {
  const char* kind;  // id, as JSON carries it: "borrow_clamps"
  std::string what;  // "borrow 3 heavy F clamps that open 451 mm or more"
  std::string gain;  // "holds every joint with 12 clamps"
};
WayOutWords way_out_words(const planner::plan::Plan& plan, const planner::plan::WayOut& way);

}  // namespace cli::words
