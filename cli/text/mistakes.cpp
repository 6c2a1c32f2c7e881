#include "cli/text/mistakes.h"

#include <fmt/format.h>

#include "cli/words/words.h"

namespace cli::text {
namespace {

std::string line_of(const std::string& text, int line) {
  std::size_t from = 0;
  for (int i = 1; i < line; ++i) {
    from = text.find('\n', from);
    if (from == std::string::npos) {
      return {};
    }
    ++from;
  }
  std::string one = text.substr(from, text.find('\n', from) - from);
  if (one.ends_with('\r')) {
    one.pop_back();
  }
  return one;
}

// The line and a mark under the column. Nothing for lines too long to be looked at.
std::string quoted_line(const planner::base::Place& place, const std::string& text) {
  std::string line = place.line > 0 ? line_of(text, place.line) : "";
  constexpr std::size_t kLongestQuoted = 200;
  if (line.empty() || line.size() > kLongestQuoted) {
    return {};
  }
  for (std::size_t tab = line.find('\t'); tab != std::string::npos; tab = line.find('\t')) {
    line[tab] = ' ';
  }
  const std::string number = std::to_string(place.line);
  std::string quoted = fmt::format("  {:>4} | {}\n", number, words::printable(line));
  if (place.column > 0) {
    quoted += fmt::format("  {:>4} | {:>{}}\n", "", "^", place.column);
  }
  return quoted;
}

}  // namespace

std::string mistakes_text(const planner::base::Diagnostics& diagnostics, const InputTexts& texts,
                          bool with_warnings) {
  std::string text;
  for (const planner::base::Diagnostic& diagnostic : diagnostics) {
    if (diagnostic.severity == planner::base::Severity::warning && !with_warnings) {
      continue;
    }
    planner::base::Diagnostic headline = diagnostic;
    headline.remedy.clear();
    text += words::printable(to_text(headline)) + "\n";
    const bool in_job = diagnostic.place.file == texts.job_name;
    text += quoted_line(diagnostic.place, in_job ? texts.job : texts.shop);
    text += diagnostic.remedy.empty() ? "" : "  " + words::printable(diagnostic.remedy) + "\n";
  }
  return text;
}

}  // namespace cli::text
