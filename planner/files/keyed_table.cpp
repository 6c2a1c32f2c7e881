#include "planner/files/keyed_table.h"

#include <algorithm>
#include <stdexcept>

namespace planner::files {

KeyedTable::KeyedTable(const Node& node, const TableKeys& keys, FileNotes& notes)
    : node_(node), keys_(keys), notes_(notes) {}

const Entry* KeyedTable::find(std::string_view key) const {
  if (std::find(keys_.keys.begin(), keys_.keys.end(), key) == keys_.keys.end()) {
    throw std::logic_error("key missing in file_keys.cpp: " + std::string(key));
  }
  const auto entry = std::find_if(node_.entries.begin(), node_.entries.end(), [&](const Entry& e) {
    return e.key == key || base::canonical_key(e.key) == key;
  });
  return entry == node_.entries.end() ? nullptr : &*entry;
}

bool KeyedTable::has(std::string_view key) const {
  return find(key) != nullptr;
}

base::Place KeyedTable::place(std::string_view key) const {
  const Entry* entry = find(key);
  return entry == nullptr ? place() : notes_.place(*entry);
}

const Node* KeyedTable::value(std::string_view key) {
  const Entry* entry = find(key);
  if (entry == nullptr || entry->value.kind == NodeKind::unread) {
    return nullptr;
  }
  canonical_word(entry->key, notes_);  // notes UK words
  return &entry->value;
}

const Node* KeyedTable::required(std::string_view key, Needed needed, std::string_view example) {
  if (needed == Needed::yes && !has(key)) {
    missing_.push_back({std::string(key), std::string(example)});
  }
  return value(key);
}

void KeyedTable::wrong_kind(const std::string& key, const Node& node, std::string_view wanted,
                            std::string_view remedy) {
  const bool is_value = node.kind != NodeKind::table && node.kind != NodeKind::list;
  notes_.error(notes_.place(node),
               key + (is_value ? " " + shown(node) + " is " : " is ") +
                   std::string(kind_name(node.kind)) + ", not " + std::string(wanted),
               std::string(remedy));
}

void KeyedTable::wrong_count(std::string_view key, const Node& list, std::size_t wanted,
                             const std::string& remedy) {
  const std::size_t n = list.items.size();
  notes_.error(notes_.place(list),
               std::string(key) + " has " + std::to_string(n) + (n == 1 ? " value" : " values") +
                   ", not " + std::to_string(wanted),
               remedy);
}

void KeyedTable::refuse(std::string_view key, const std::string& wrong, const std::string& remedy) {
  if (const Node* node = value(key)) {
    const bool is_value = node->kind != NodeKind::table && node->kind != NodeKind::list;
    notes_.error(notes_.place(*node),
                 std::string(key) + (is_value ? " " + shown(*node) : "") + ": " + wrong, remedy);
  }
}

std::string KeyedTable::below(std::string_view key) const {
  return (keys_.id.empty() ? "" : keys_.id + ".") + std::string(key);
}

const Node* KeyedTable::table(std::string_view key) {
  const Node* node = value(key);
  if (node != nullptr && node->kind != NodeKind::table) {
    wrong_kind(std::string(key), *node, "a table",
               keys_.id.empty() ? "write [" + std::string(key) + "] and its keys on the lines below"
                                : "write " + std::string(key) + " = { ... }");
    return nullptr;
  }
  return node;
}

std::vector<const Node*> KeyedTable::tables(std::string_view key) {
  const Node* node = value(key);
  std::vector<const Node*> tables;
  if (node == nullptr) {
    return tables;
  }
  const std::string brackets = "write [[" + below(key) + "]], with two brackets, above each one";
  if (node->kind != NodeKind::list) {
    notes_.error(notes_.place(*node), std::string(key) + " is not a list of tables", brackets);
    return tables;
  }
  for (const Node& item : node->items) {
    if (item.kind == NodeKind::table) {
      tables.push_back(&item);
    } else if (item.kind != NodeKind::unread) {
      wrong_kind(std::string(key), item, "a table", brackets);
    }
  }
  return tables;
}

void KeyedTable::note_missing() {
  for (const Missing& m : missing_) {
    notes_.error(place(), keys_.heading + " has no " + m.key, "add " + m.key + " = " + m.example);
  }
  missing_.clear();
}

bool KeyedTable::any_unknown() const {
  return std::any_of(node_.entries.begin(), node_.entries.end(), [&](const Entry& e) {
    return std::find(keys_.keys.begin(), keys_.keys.end(), base::canonical_key(e.key)) ==
           keys_.keys.end();
  });
}

bool KeyedTable::any_unread() const {
  return std::any_of(node_.entries.begin(), node_.entries.end(),
                     [](const Entry& e) { return e.value.kind == NodeKind::unread; });
}

void KeyedTable::finish() {
  std::vector<std::string> seen;
  for (const Entry& entry : node_.entries) {
    const std::string key = base::canonical_key(entry.key);
    if (std::find(keys_.keys.begin(), keys_.keys.end(), key) != keys_.keys.end()) {
      if (std::find(seen.begin(), seen.end(), key) != seen.end()) {
        notes_.error(notes_.place(entry), "\"" + entry.key + "\" is given twice",
                     "leave one of them out");
      }
      seen.push_back(key);
      continue;
    }
    const std::string meant = base::nearest(key, keys_.keys);
    notes_.error(notes_.place(entry), keys_.heading + " has no key \"" + shown(entry.key) + "\"",
                 meant.empty() ? "it may have " + base::all_of(keys_.keys)
                               : "did you mean \"" + meant + "\"?");
    // A key that is there but misspelt is not missing as well.
    missing_.erase(std::remove_if(missing_.begin(), missing_.end(),
                                  [&](const Missing& m) { return m.key == meant; }),
                   missing_.end());
  }
  note_missing();
}

}  // namespace planner::files
