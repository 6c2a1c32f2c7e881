#include "planner/files/syntax_mistake.h"

#include <algorithm>
#include <utility>

#include "planner/files/file_notes.h"

namespace planner::files {
namespace {

struct Words {
  std::string message, remedy;
};

bool contains(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

std::string trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  const std::size_t last = text.find_last_not_of(" \t");
  return first == std::string_view::npos ? "" : std::string(text.substr(first, last - first + 1));
}

// What stands behind the `=` of a line, without its comment.
std::string value_text(std::string_view line) {
  const std::size_t equals = line.find('=');
  return equals == std::string_view::npos
             ? ""
             : trimmed(line.substr(equals + 1, line.find('#') - equals - 1));
}

// "[14, 9, 8]" for 14 x 9 x 8; empty where the value is no such thing.
std::string as_list(const std::string& value) {
  std::string list = "[";
  std::size_t start = 0, pieces = 0;
  while (start <= value.size()) {
    const std::size_t end = std::min(value.find_first_of("x,", start), value.size());
    const std::string piece = trimmed(std::string_view(value).substr(start, end - start));
    if (piece.empty() || piece.find_first_not_of("0123456789.") != std::string::npos) {
      return {};
    }
    list += (pieces++ == 0 ? "" : ", ") + piece;
    start = end + 1;
  }
  return pieces < 2 ? "" : list + "]";
}

Words quoted_value(const std::string& value) {
  const std::string_view inside =
      std::string_view(value).substr(1, value.size() - std::min<std::size_t>(value.size(), 2));
  if (contains(inside, "\"")) {
    return {"a quote mark inside quotes",
            "write an inch mark in single quotes: '23 13/16\"', or write in: \"23 13/16 in\""};
  }
  return {"the text's quotes are not closed, or something stands behind them",
          "end the text with the quote it began with"};
}

// What is wrong with the value of `key = value`.
Words bare_value(const std::string& value) {
  if (value.empty()) {
    return {"a key without a value", "write its value behind the ="};
  }
  if (value.front() == '"' || value.front() == '\'') {
    return quoted_value(value);
  }
  const std::string list = as_list(value);
  const std::string quote = contains(value, "\"") ? "'" : "\"";
  return {shown(value) + " stands without quotes",
          "write " + (list.empty() ? quote + shown(value) + quote : list)};
}

// The name that the parser has put between quotes.
std::string quoted_name(std::string_view said) {
  const std::size_t open = said.find('\''), close = said.rfind('\'');
  return open < close ? shown(said.substr(open + 1, close - open - 1)) : std::string();
}

Words in_our_words(std::string_view said, std::string_view line) {
  const std::string start = trimmed(line).substr(0, 1);
  if (is_repetition(said) && start == "[") {
    return {"[" + quoted_name(said) + "] stands here for the second time",
            "write it once; parts, cuts, joints and clamps take two brackets each time: [[part]]"};
  }
  if (is_repetition(said)) {
    return {"\"" + quoted_name(said) + "\" is given twice", "leave one of them out"};
  }
  if (contains(said, "parsing table header") || contains(said, "parsing array-of-tables header")) {
    return {"a header that is not closed or holds no name",
            "write [name], or [[name]] for one of several"};
  }
  if (contains(said, "parsing array")) {
    return {"a list that is not closed, or has no comma between its values",
            "write it like [14, 9, 8]"};
  }
  if (contains(said, "escape sequence")) {
    return {"a backslash with no meaning in a text",
            "put the text in single quotes, or write two backslashes"};
  }
  if (contains(said, "expected '='")) {
    return {"no = between a key and its value", "write key = value"};
  }
  if (contains(said, "nested")) {
    return {"lists or tables nested too deep", "docs/job_file.md shows what a file may hold"};
  }
  const bool has_value = contains(line, "=") && trimmed(line.substr(0, line.find('='))).size() > 0;
  const std::string value = value_text(line);
  if (has_value && start != "[" && (value.empty() || !contains("[{", value.substr(0, 1)))) {
    return bare_value(value);
  }
  return {"this line is not key = value, [name] or # a comment", "one key = value a line"};
}

}  // namespace

bool is_repetition(std::string_view said) {
  return contains(said, "cannot redefine existing") || contains(said, "cannot insert");
}

base::Diagnostic syntax_mistake(const base::Place& place, std::string_view said,
                                std::string_view line) {
  Words words = in_our_words(said, line);
  return {base::Severity::error, place, std::move(words.message), std::move(words.remedy)};
}

}  // namespace planner::files
