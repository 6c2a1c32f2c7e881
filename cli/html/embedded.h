// The bench sheet's own style and script, compiled in.
#pragma once
#include <string_view>

namespace cli::html {

enum class Paper { a4, letter };

struct Embedded {
  std::string_view text;
  std::string_view policy_hash;  // "sha256-...", of the text
};
const Embedded& bench_css();
const Embedded& bench_js();
const Embedded& page_css(Paper paper);

}  // namespace cli::html
