// What a reader notes while it goes through a file, and the words it says it in.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "planner/document.h"
#include "planner/quantity_text.h"

namespace planner {

// What is noted while a file is read.
struct FileNotes {
  std::string file;
  Units units = Units::mm;  // of bare numbers
  std::string species;      // of parts that name none; empty where the file has no such key
  bool uk_words = false;    // the file said rebate, housing, mortice or cramp
  Diagnostics diagnostics;

  Place place(const Node& node) const { return {file, node.line, node.column}; }
  Place place(const Entry& entry) const { return {file, entry.line, entry.column}; }
  void error(const Place& place, std::string message, std::string remedy);
};

// The value as the user would recognise it: texts in quotes, no longer than a line has room for.
std::string shown(const Node& node);
std::string shown(std::string_view text);

// "rabbet" for "rebate", "dado" for "housing", "mortise", "mitre" and "clamp" likewise, in lower
// case with dashes for spaces; notes that UK words are in use.
std::string canonical_word(std::string_view word, FileNotes& notes);

// The one of `words`, or a UK spelling of one, that `word` is meant to be; empty where none is
// near.
std::string nearest_word(const std::string& word, std::vector<std::string> words);

// What to write instead of a name that no row of a table has: `did you mean "red_oak"?`, the one of
// `ids` that it is a slip of, or those that it is one word of ("oak"), up to six; else `otherwise`.
std::string did_you_mean(std::string_view name, const std::vector<std::string>& ids,
                         const std::string& otherwise);

// What a value of this kind is called: "a list".
std::string_view kind_name(NodeKind kind);

// A key as the list of keys has it: UK spellings made the canonical ones, case kept.
std::string canonical_key(std::string_view key);

// "a, b or c", "a, b and c"
std::string one_of(const std::vector<std::string>& words);
std::string all_of(const std::vector<std::string>& words);

// The first thousand, and how many more there are: nobody mends more at a time.
void limit(Diagnostics& diagnostics, const std::string& file);

// Reads a whole file: what `read_root` makes of its top table, unless there is an error in it or in
// what it reads, and all that was noted, by place.
template <class Value, class ReadRoot>
std::pair<std::optional<Value>, Diagnostics> read_noted(const std::string& file,
                                                        std::string_view text, ReadRoot read_root) {
  Document document = read_document(file, text);
  FileNotes notes;
  notes.file = file;
  notes.diagnostics = std::move(document.diagnostics);
  std::optional<Value> value;
  if (document.root) {
    value = read_root(*document.root, notes);
  }
  sort_by_place(notes.diagnostics);
  limit(notes.diagnostics, file);
  if (has_errors(notes.diagnostics)) {
    value.reset();
  }
  return {std::move(value), std::move(notes.diagnostics)};
}

}  // namespace planner
