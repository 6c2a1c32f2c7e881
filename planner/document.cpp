#include "planner/document.h"

#include <algorithm>
#include <cstdint>
#include <utility>

// Debian's toml++ 3.3.0 would abort on `[:`; its assertion is a wish, not a guard against memory.
#define TOML_ASSERT(condition) static_cast<void>(0)
#define TOML_EXCEPTIONS 0
#define TOML_ENABLE_FORMATTERS 0
#include <toml++/toml.h>

#include "planner/file_notes.h"
#include "planner/text_guard.h"

namespace planner {
namespace {

constexpr int kMostReported = 20;
// Reading again after each bad line is quick on a file someone wrote; not on a hostile megabyte.
constexpr std::size_t kLargestRetried = 1 << 20;

// The text of a value that TOML does not keep as it was written.
std::string written(const GuardedText& text, const toml::source_region& where) {
  const std::string_view line = text.line(static_cast<int>(where.begin.line));
  std::size_t byte = 0;
  std::uint32_t column = 1;
  std::string out;
  for (; byte < line.size() && column < where.end.column; ++byte) {
    const bool starts_letter = (static_cast<unsigned char>(line[byte]) & 0xC0u) != 0x80u;
    column += starts_letter && byte > 0 ? 1 : 0;
    if (column >= where.begin.column && column < where.end.column) {
      out += line[byte];
    }
  }
  return out;
}

class TreeBuilder {
 public:
  explicit TreeBuilder(const GuardedText& text) : text_(text) {}

  Node build(const toml::node& from) const {
    Node node;
    node.line = static_cast<int>(from.source().begin.line);
    node.column = static_cast<int>(from.source().begin.column);
    if (const auto* table = from.as_table()) {
      add_entries(*table, node);
    } else if (const auto* list = from.as_array()) {
      node.kind = NodeKind::list;
      node.items.reserve(list->size());
      for (const toml::node& item : *list) {
        node.items.push_back(build(item));
      }
    } else if (const auto* text = from.as_string()) {
      node.kind = text->get() == GuardedText::kMark ? NodeKind::unread : NodeKind::text;
      node.text = text->get();
    } else {
      node.kind = from.is_number()    ? NodeKind::number
                  : from.is_boolean() ? NodeKind::truth
                                      : NodeKind::date;
      node.text = written(text_, from.source());
    }
    return node;
  }

 private:
  void add_entries(const toml::table& table, Node& node) const {
    node.entries.reserve(table.size());
    for (const auto& [key, value] : table) {
      const toml::source_position at = key.source().begin;
      node.entries.push_back({std::string(key.str()), static_cast<int>(at.line),
                              static_cast<int>(at.column), build(value)});
    }
    std::sort(node.entries.begin(), node.entries.end(), [](const Entry& a, const Entry& b) {
      return std::pair(a.line, a.column) < std::pair(b.line, b.column);
    });
  }

  const GuardedText& text_;
};

bool contains(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

// What stands behind the `=` of a line, without spaces and comment.
std::string value_text(std::string_view line) {
  const std::size_t equals = line.find('=');
  if (equals == std::string_view::npos) {
    return {};
  }
  std::string_view value = line.substr(equals + 1);
  value = value.substr(0, value.find('#'));
  const std::size_t first = value.find_first_not_of(" \t");
  const std::size_t last = value.find_last_not_of(" \t");
  return first == std::string_view::npos ? "" : std::string(value.substr(first, last - first + 1));
}

// What is wrong with a value and how it should have been written, where it is a quantity or a word
// without its quotes; nothing where the line is something else.
std::optional<std::pair<std::string, std::string>> quoting_mistake(std::string_view line) {
  const std::string value = value_text(line);
  if (value.empty()) {
    return contains(line, "=") ? std::optional(std::pair<std::string, std::string>(
                                     "a key without a value", "write a value behind the ="))
                               : std::nullopt;
  }
  const bool opens = value.front() == '"' || value.front() == '\'';
  if (opens && value.size() > 1 &&
      contains(std::string_view(value).substr(1, value.size() - 2), "\"")) {
    return std::pair(
        "a quote mark inside quotes",
        "write an inch mark in single quotes: '23 13/16\"', or write in: \"23 13/16 in\"");
  }
  if (opens) {
    return std::pair("the quote is not closed, or something stands behind it",
                     "end the text with the quote it began with");
  }
  if (contains("[{", value.substr(0, 1))) {
    return std::nullopt;
  }
  return std::pair(shown(value) + " stands without quotes", contains(value, "\"")
                                                                ? "write '" + shown(value) + "'"
                                                                : "write \"" + shown(value) + "\"");
}

// The parser's error in the words of the trade.
Diagnostic in_our_words(const toml::parse_error& error, const std::string& file,
                        std::string_view line) {
  const toml::source_position at = error.source().begin;
  std::string said(error.description());
  const std::string_view kFrame = "Error while parsing ";
  if (said.compare(0, kFrame.size(), kFrame) == 0) {
    said.erase(0, kFrame.size());
  }
  Diagnostic d{
      Severity::error, {file, static_cast<int>(at.line), static_cast<int>(at.column)}, {}, {}};
  const auto quoted_name = [&] {
    const std::size_t open = said.find('\''), close = said.rfind('\'');
    return open < close ? said.substr(open + 1, close - open - 1) : std::string();
  };
  if (contains(said, "cannot redefine existing") && contains(said, "table header")) {
    d.message = "[" + quoted_name() + "] stands here for the second time";
    d.remedy =
        "write it once; parts, cuts, joints and clamps take two brackets each time: [[part]]";
  } else if (contains(said, "cannot redefine existing")) {
    d.message = "\"" + quoted_name() + "\" is given twice";
    d.remedy = "leave one of them out";
  } else if (contains(said, "end-of-file") && contains(said, "array")) {
    d.message = "a list is not closed";
    d.remedy = "end it with ]";
  } else if (const auto mistake = quoting_mistake(line)) {
    d.message = mistake->first;
    d.remedy = mistake->second;
  } else {
    d.message = "this line cannot be read (" + said + ")";
  }
  return d;
}

}  // namespace

Document read_document(const std::string& file, std::string_view text) {
  Document document;
  GuardedText guarded(file, text, document.diagnostics);
  if (!guarded.readable()) {
    return document;
  }
  for (int tries = 0; tries < kMostReported; ++tries) {
    const toml::parse_result parsed = toml::parse(std::string_view(guarded.text()));
    if (parsed) {
      if (guarded.only_values_missing()) {
        document.root = TreeBuilder(guarded).build(parsed.table());
      }
      break;
    }
    const int line = static_cast<int>(parsed.error().source().begin.line);
    const bool twice = contains(parsed.error().description(), "cannot redefine existing");
    document.diagnostics.push_back(in_our_words(parsed.error(), file, guarded.line(line)));
    if (guarded.text().size() > kLargestRetried ||
        !guarded.take_out(line, twice ? GuardedText::Leave::nothing : GuardedText::Leave::key)) {
      break;
    }
  }
  return document;
}

}  // namespace planner
