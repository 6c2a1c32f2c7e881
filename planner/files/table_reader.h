// Reads one table of a file key by key: what is missing, misspelt or out of range is noted with its
// place and what to write instead, and reading goes on.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planner/base/quantity_text.h"
#include "planner/files/document.h"
#include "planner/files/file_keys.h"
#include "planner/files/file_notes.h"
#include "planner/work/part.h"

namespace planner::files {

enum class Needed { yes, no };

// Which lengths a key takes.
enum class Sign {
  above_zero,  // a size
  any          // a position
};

class TableReader {
 public:
  // REQUIRES: `node` is a table; it, `keys` and `notes` outlive the reader.
  TableReader(const Node& node, const TableKeys& keys, FileNotes& notes);

  // Every key's value is read by one of these, each at most once. Nothing where the key is missing
  // or its value no good: both are noted, a missing one only if it is needed.
  std::optional<geometry::Length> length(std::string_view key, Sign sign, Needed needed);
  std::optional<std::vector<geometry::Length>> lengths(std::string_view key, Sign sign,
                                                       Needed needed);
  // Exactly `count` of them; `what` says which: "length, width and height".
  std::optional<std::vector<geometry::Length>> lengths(std::string_view key, std::size_t count,
                                                       std::string_view what, Sign sign,
                                                       Needed needed);
  void units();  // the key `units`, of bare numbers from here on
  std::optional<double> seconds(std::string_view key);
  std::optional<double> celsius(std::string_view key);
  std::optional<double> share(std::string_view key);  // 0.4 of "40 %"
  std::optional<double> millilitres(std::string_view key);
  std::optional<double> newtons(std::string_view key);
  std::optional<double> seconds_per_mm(std::string_view key);
  std::optional<double> seconds_per_mm2(std::string_view key);
  std::optional<double> degrees(std::string_view key, Needed needed);
  std::optional<int> whole(std::string_view key, int lowest, int highest, Needed needed);
  std::optional<bool> truth(std::string_view key);
  std::optional<std::string> text(std::string_view key, Needed needed);
  std::optional<std::vector<std::string>> texts(std::string_view key, std::string_view what,
                                                Needed needed);
  std::optional<std::vector<std::string>> texts(std::string_view key, std::size_t count,
                                                std::string_view what, Needed needed);
  // One of `words`, written as they are ("rabbet"); UK and US spellings, spaces and dashes alike.
  std::optional<std::string> word(std::string_view key, const std::vector<std::string>& words,
                                  Needed needed);
  std::optional<int> axis(std::string_view key, Needed needed);
  std::optional<work::Face> face(std::string_view key, Needed needed);
  std::optional<std::vector<work::Face>> faces(std::string_view key);

  // The value's node for a reader of its own kind, and its place; null where the key is missing or
  // its line could not be read.
  const Node* value(std::string_view key);
  // A table, or the tables of a list; anything else is noted. Empty where the key is missing.
  const Node* table(std::string_view key);
  std::vector<const Node*> tables(std::string_view key);

  bool has(std::string_view key) const;
  base::Place place() const { return notes_.place(node_); }
  base::Place place(std::string_view key) const;  // of the key; of the table where it has none
  // Notes something wrong with the key's value: `key <value as written>: <wrong>`.
  void refuse(std::string_view key, const std::string& wrong, const std::string& remedy);

  // Notes all keys that the table may not have and those that it needs and has not. To be called
  // last.
  void finish();
  void note_missing();  // the latter alone, where the former cannot be known
  bool any_unknown() const;
  bool any_word_refused() const { return word_refused_; }  // that word() was asked for
  bool any_unread() const;  // whether a line of it could not be read, so that values are missing

 private:
  const Entry* find(std::string_view key) const;
  const Node* required(std::string_view key, Needed needed, std::string_view example);
  std::string example_length(std::string_view key) const;
  std::string below(std::string_view key) const;  // "part.cut" for `cut` of [[part]]
  std::optional<geometry::Length> length_of(const Node& node, const std::string& key, Sign sign);
  std::optional<double> measure(std::string_view key, Needed needed,
                                base::Reading<double> (*read)(std::string_view),
                                std::string_view kind, std::string_view example);
  void wrong_kind(const std::string& key, const Node& node, std::string_view wanted,
                  std::string_view remedy);

  bool within_length(const Node& text, std::string_view key);  // else noted
  void wrong_count(std::string_view key, const Node& list, std::size_t wanted,
                   const std::string& remedy);

  const Node& node_;
  const TableKeys& keys_;
  FileNotes& notes_;
  struct Missing {
    std::string key, example;
  };
  std::vector<Missing> missing_;
  bool word_refused_ = false;
};

}  // namespace planner::files
