// What must hold of a text before the TOML parser may see it, and how a line that it could not read
// is taken out so that the rest can still be read.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "planner/base/diagnostic.h"

namespace planner::files {

// A text by its lines, some of which may have been taken out.
class GuardedText {
 public:
  GuardedText(std::string file, std::string_view text);

  // To be called before the parser sees the text, each time: where a line was taken out, what stood
  // in a text may stand outside one. `diagnostics` gets what makes the text unreadable as a whole
  // (not UTF-8, control characters, keys nested so deep that the parser would run out of stack;
  // then false), or the lines that hold a letter no TOML file has outside its texts; these lines
  // are taken out.
  bool guard(base::Diagnostics& diagnostics);

  // Whether the lines taken out were all `key = value`, so that what is missing is known.
  bool only_values_missing() const { return only_values_missing_; }

  const std::string& text() const { return text_; }
  std::string_view line(int number) const;  // from 1; empty beyond the end

  // Leaves `key = <mark>` in place of the line, or nothing where it is no such line or the key is
  // known without it; a header that is there twice becomes one of a table that begins with the
  // mark, for the keys below it. False when there is nothing left to take, or a list runs over
  // several lines.
  enum class Leave { key, nothing };
  bool take_out(int line, Leave leave);

  // The value that stands for one that could not be read: a private-use letter no keyboard writes.
  static constexpr std::string_view kMark = "\uE0F1";

 private:
  std::string file_;
  std::string text_;
  std::vector<std::size_t> starts_;  // of each line
  bool only_values_missing_ = true;
};

}  // namespace planner::files
