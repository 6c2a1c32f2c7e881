// What a reader notes while it goes through a file, and the words it says it in.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "planner/base/quantity_text.h"
#include "planner/base/spelling.h"
#include "planner/files/document.h"
#include "planner/work/part.h"

namespace planner::files {

// What is noted while a file is read.
struct FileNotes {
  std::string file;
  base::Units units = base::Units::mm;  // of bare numbers
  work::OwnWoods own_woods;  // of the shop, that species may name too
  std::string species;    // of parts that name none; empty where the file has no such key
  bool uk_words = false;  // the file said rebate, housing, mortice, mitre or cramp
  base::Diagnostics diagnostics;

  base::Place place(const Node& node) const { return {file, node.line, node.column}; }
  base::Place place(const Entry& entry) const { return {file, entry.line, entry.column}; }
  void error(const base::Place& place, std::string message, std::string remedy);
  void warn(const base::Place& place, std::string message);
};

// The value as the user would recognise it: texts in quotes, no longer than a line has room for.
std::string shown(const Node& node);
using base::shown;  // of a text

// base::canonical_word; notes where UK words are in use.
inline std::string canonical_word(std::string_view word, FileNotes& notes) {
  return base::canonical_word(word, notes.uk_words);
}

// What a value of this kind is called: "a list".
std::string_view kind_name(NodeKind kind);

// The first thousand, and how many more there are: nobody mends more at a time.
void limit(base::Diagnostics& diagnostics, const std::string& file);

// Reads a whole file: what `read_root` makes of its top table, unless there is an error in it or in
// what it reads, and all that was noted, by place.
template <class Value, class ReadRoot>
std::pair<std::optional<Value>, base::Diagnostics> read_noted(const std::string& file,
                                                              std::string_view text,
                                                              ReadRoot read_root) {
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

}  // namespace planner::files
