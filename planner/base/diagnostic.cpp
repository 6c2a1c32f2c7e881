#include "planner/base/diagnostic.h"

#include <algorithm>
#include <numeric>

namespace planner::base {
namespace {

// Letters put in, left out, changed, or exchanged with the next one (optimal string alignment).
std::size_t edit_distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> before(b.size() + 1), above(b.size() + 1), row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before.swap(above);
    above.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, changed});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        row[j] = std::min(row[j], before[j - 2] + 1);
      }
    }
  }
  return row[b.size()];
}

}  // namespace

bool has_errors(const Diagnostics& diagnostics) {
  return std::any_of(diagnostics.begin(), diagnostics.end(),
                     [](const Diagnostic& d) { return d.severity == Severity::error; });
}

void append(Diagnostics& all, const Diagnostics& more) {
  all.insert(all.end(), more.begin(), more.end());
}

void sort_by_place(Diagnostics& diagnostics) {
  std::stable_sort(diagnostics.begin(), diagnostics.end(),
                   [](const Diagnostic& a, const Diagnostic& b) { return a.place < b.place; });
}

std::string to_text(const Diagnostic& diagnostic) {
  const Place& at = diagnostic.place;
  std::string text = at.file;
  if (at.line > 0) {
    text += ":" + std::to_string(at.line) + ":" + std::to_string(at.column);
  }
  text += ": ";
  text += diagnostic.severity == Severity::warning ? "warning: " : "";
  text += diagnostic.message;
  if (!diagnostic.remedy.empty()) {
    text += "\n  " + diagnostic.remedy;
  }
  return text;
}

std::string nearest(const std::string& word, const std::vector<std::string>& candidates) {
  // A word of a megabyte is nobody's misspelling, and the table above is quadratic.
  if (word.size() > 64) {
    return {};
  }
  std::string best;
  const std::size_t most = word.size() <= 4 ? 1 : std::max<std::size_t>(2, word.size() / 3);
  std::size_t best_distance = most + 1;
  for (const std::string& candidate : candidates) {
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < best_distance) {
      best = candidate;
      best_distance = distance;
    }
  }
  return best;
}

}  // namespace planner::base
