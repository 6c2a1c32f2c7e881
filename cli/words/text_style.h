// How a plan is to be worded and shown, for paper and screen alike.
#pragma once
#include <optional>

#include "cli/words/words.h"

namespace cli::words {

struct TextStyle {
  Wording wording;
  bool colour = false;
  bool explain = false;             // each stage, step and clamp with its reason
  bool details = false;             // of a plan: every list whole, the clock drawn, the pressure, the rescue
  std::optional<int> start_minute;  // the time of day the glue is opened, minutes from midnight
};

}  // namespace cli::words
