// What is wrong with the user's input: where, what, and what to write instead. Collected, never
// thrown one by one, so that one run tells all of a file's mistakes.
#pragma once
#include <string>
#include <vector>

namespace planner::base {

// A place in a file, counted from 1. Line 0 stands for the file as a whole.
struct Place {
  std::string file;
  int line = 0, column = 0;
  friend auto operator<=>(const Place&, const Place&) = default;
};

enum class Severity { error, warning };

struct Diagnostic {
  Severity severity = Severity::error;
  Place place;
  std::string message;  // what is wrong, with the value; lower case, no full stop
  std::string remedy;   // what to write instead; may be empty
};

using Diagnostics = std::vector<Diagnostic>;

bool has_errors(const Diagnostics& diagnostics);

void append(Diagnostics& all, const Diagnostics& more);

// By place, then in the order found.
void sort_by_place(Diagnostics& diagnostics);

// "file:line:column: message" and, on a second line, "  remedy" where there is one.
std::string to_text(const Diagnostic& diagnostic);

// The candidate that `word` is a slip of: letters put in, left out, changed or exchanged with the
// next one, at most a third of them, 2 in short words and 1 in those of up to four letters. Empty
// when there is none. Ties go to the earlier candidate.
std::string nearest(const std::string& word, const std::vector<std::string>& candidates);

}  // namespace planner::base
