#include "planner/document.h"

#include <algorithm>
#include <cstdint>
#include <utility>

// Debian's toml++ 3.3.0 would abort on `[:`; its assertion is a wish, not a guard against memory.
#define TOML_ASSERT(condition) static_cast<void>(0)
#define TOML_EXCEPTIONS 0
#define TOML_ENABLE_FORMATTERS 0
#include <toml++/toml.h>

#include "planner/syntax_mistake.h"
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
      if (key.str().substr(0, GuardedText::kMark.size()) == GuardedText::kMark) {
        continue;  // a table that stood there twice
      }
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

}  // namespace

Document read_document(const std::string& file, std::string_view text) {
  Document document;
  GuardedText guarded(file, text);
  int last_line = 0;
  for (int tries = 0; tries < kMostReported && guarded.guard(document.diagnostics); ++tries) {
    const toml::parse_result parsed = toml::parse(std::string_view(guarded.text()));
    if (parsed) {
      if (guarded.only_values_missing()) {
        document.root = TreeBuilder(guarded).build(parsed.table());
      }
      break;
    }
    const toml::source_position at = parsed.error().source().begin;
    const Place place{file, static_cast<int>(at.line), static_cast<int>(at.column)};
    const std::string_view said = parsed.error().description();
    if (place.line == last_line) {
      break;  // taking the line out has not helped
    }
    last_line = place.line;
    document.diagnostics.push_back(syntax_mistake(place, said, guarded.line(place.line)));
    const auto leave = is_repetition(said) ? GuardedText::Leave::nothing : GuardedText::Leave::key;
    if (guarded.text().size() > kLargestRetried || !guarded.take_out(place.line, leave)) {
      break;
    }
  }
  return document;
}

}  // namespace planner
