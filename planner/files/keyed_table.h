// A table of a file by its keys: which of them it has, and which it lacks, misspells or has twice.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "planner/files/document.h"
#include "planner/files/file_keys.h"
#include "planner/files/file_notes.h"

namespace planner::files {

enum class Needed { yes, no };

class KeyedTable {
 public:
  // REQUIRES: `node` is a table; it, `keys` and `notes` outlive this.
  KeyedTable(const Node& node, const TableKeys& keys, FileNotes& notes);

  bool has(std::string_view key) const;
  base::Place place() const { return notes_.place(node_); }
  base::Place place(std::string_view key) const;  // of the key; of the table where it has none

  const work::OwnWoods& own_woods() const { return notes_.own_woods; }  // that a species may name too

  // The value's node for a reader of its own kind; null where the key is missing or its line could
  // not be read.
  const Node* value(std::string_view key);
  // A table, or the tables of a list; anything else is noted. Empty where the key is missing.
  const Node* table(std::string_view key);
  std::vector<const Node*> tables(std::string_view key);

  // Notes something wrong with the key's value: `key <value as written>: <wrong>`.
  void refuse(std::string_view key, const std::string& wrong, const std::string& remedy);

  // Notes all keys that the table may not have and those that it needs and has not. To be called
  // last.
  void finish();
  void note_missing();  // the latter alone, where the former cannot be known
  bool any_unknown() const;
  bool any_unread() const;  // whether a line of it could not be read, so that values are missing

 protected:
  // As value(); a missing key that is needed is noted by finish(), with what might be written.
  const Node* required(std::string_view key, Needed needed, std::string_view example);
  void wrong_kind(const std::string& key, const Node& node, std::string_view wanted,
                  std::string_view remedy);
  void wrong_count(std::string_view key, const Node& list, std::size_t wanted,
                   const std::string& remedy);
  const TableKeys& keys() const { return keys_; }
  FileNotes& notes() const { return notes_; }

 private:
  const Entry* find(std::string_view key) const;
  std::string below(std::string_view key) const;  // "part.cut" for `cut` of [[part]]

  const Node& node_;
  const TableKeys& keys_;
  FileNotes& notes_;
  struct Missing {
    std::string key, example;
  };
  std::vector<Missing> missing_;
};

}  // namespace planner::files
