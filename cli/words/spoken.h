// Sentences that name clamps, which UK words call cramps.
#pragma once
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "cli/words/words.h"

namespace cli::words {

// The pattern with each "clamp" as these words have it; what is put into it stays as it is.
inline std::string spoken_pattern(const Wording& wording, std::string_view pattern) {
  constexpr std::string_view kClamp = "clamp", kCramp = "cramp";
  std::string text(pattern);
  for (std::size_t at = text.find(kClamp); wording.uk_words && at != std::string::npos;
       at = text.find(kClamp, at)) {
    text.replace(at, kClamp.size(), kCramp);
  }
  return text;
}

template <class... Arguments>
std::string spoken(const Wording& wording, std::string_view pattern, const Arguments&... arguments) {
  return fmt::format(fmt::runtime(spoken_pattern(wording, pattern)), arguments...);
}

}  // namespace cli::words
