// Sentences that name clamps and miters, which UK words call cramps and mitres.
#pragma once
#include <string>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "cli/words/words.h"

namespace cli::words {

// The pattern in these words; what is put into it stays as it is.
inline std::string spoken_pattern(const Wording& wording, std::string_view pattern) {
  constexpr std::pair<std::string_view, std::string_view> kUk[] = {
      {"clamp", "cramp"}, {"Clamp", "Cramp"}, {"miter", "mitre"}};
  std::string text(pattern);
  for (const auto& [us, uk] : kUk) {
    for (std::size_t at = text.find(us); wording.uk_words && at != std::string::npos; at = text.find(us, at)) {
      text.replace(at, us.size(), uk);
    }
  }
  return text;
}

template <class... Arguments>
std::string spoken(const Wording& wording, std::string_view pattern, const Arguments&... arguments) {
  return fmt::format(fmt::runtime(spoken_pattern(wording, pattern)), arguments...);
}

}  // namespace cli::words
