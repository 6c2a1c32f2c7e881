// What every fuzz target asks of an answer: a broken promise stops the fuzzer as a crash does.
#pragma once
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "planner/base/diagnostic.h"

namespace fuzz {

inline void require(bool kept, const char* promise) {
  if (!kept) {
    std::fprintf(stderr, "promise broken: %s\n", promise);
    std::abort();
  }
}

// Every mistake says something, at a place that is in the text, and the file's order is kept.
inline void check(const planner::Diagnostics& diagnostics, std::string_view text) {
  int lines = 1;
  for (const char c : text) {
    lines += c == '\n' ? 1 : 0;
  }
  for (const planner::Diagnostic& d : diagnostics) {
    require(!d.message.empty(), "a mistake has words");
    require(d.message.find('\n') == std::string::npos, "a message is one line");
    require(d.place.line >= 0 && d.place.line <= lines, "a mistake's line is in the file");
    require(d.place.column >= (d.place.line > 0 ? 1 : 0), "columns count from 1");
  }
}

}  // namespace fuzz
