#include "planner/files/table_reader.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <stdexcept>
#include <utility>

namespace planner::files {
namespace {

std::string_view example_of(std::string_view key, const TableKeys& table) {
  if (key == "name" && table.heading == "[[glue]]") {
    return "\"shop bottle\"";
  }
  struct Example {
    std::string_view key, text;
  };
  constexpr std::array<Example, 6> kExamples = {{{"species", "\"black_cherry\""},
                                                 {"use", "\"pva_type2\""},
                                                 {"family", "\"pva_type2\""},
                                                 {"kind", "\"f_heavy\""},
                                                 {"name", "\"left side\""},
                                                 {"title", "\"Hive-tool chest\""}}};
  const auto* example = std::find_if(kExamples.begin(), kExamples.end(),
                                     [&](const Example& e) { return e.key == key; });
  return example == kExamples.end() ? "\"...\"" : example->text;
}

constexpr std::size_t kLongestText = 1000;  // no name or path of a file is longer
constexpr std::string_view kFaces = "write -x, +x, -y, +y, -z or +z, in quotes";

}  // namespace

TableReader::TableReader(const Node& node, const TableKeys& keys, FileNotes& notes)
    : node_(node), keys_(keys), notes_(notes) {}

const Entry* TableReader::find(std::string_view key) const {
  if (std::find(keys_.keys.begin(), keys_.keys.end(), key) == keys_.keys.end()) {
    throw std::logic_error("key missing in file_keys.cpp: " + std::string(key));
  }
  const auto entry = std::find_if(node_.entries.begin(), node_.entries.end(), [&](const Entry& e) {
    return e.key == key || base::canonical_key(e.key) == key;
  });
  return entry == node_.entries.end() ? nullptr : &*entry;
}

bool TableReader::has(std::string_view key) const {
  return find(key) != nullptr;
}

base::Place TableReader::place(std::string_view key) const {
  const Entry* entry = find(key);
  return entry == nullptr ? place() : notes_.place(*entry);
}

const Node* TableReader::value(std::string_view key) {
  const Entry* entry = find(key);
  if (entry == nullptr || entry->value.kind == NodeKind::unread) {
    return nullptr;
  }
  canonical_word(entry->key, notes_);  // notes UK words
  return &entry->value;
}

const Node* TableReader::required(std::string_view key, Needed needed, std::string_view example) {
  if (needed == Needed::yes && !has(key)) {
    missing_.push_back({std::string(key), std::string(example)});
  }
  return value(key);
}

void TableReader::wrong_kind(const std::string& key, const Node& node, std::string_view wanted,
                             std::string_view remedy) {
  const bool is_value = node.kind != NodeKind::table && node.kind != NodeKind::list;
  notes_.error(notes_.place(node),
               key + (is_value ? " " + shown(node) + " is " : " is ") +
                   std::string(kind_name(node.kind)) + ", not " + std::string(wanted),
               std::string(remedy));
}

void TableReader::wrong_count(std::string_view key, const Node& list, std::size_t wanted,
                              const std::string& remedy) {
  const std::size_t n = list.items.size();
  notes_.error(notes_.place(list),
               std::string(key) + " has " + std::to_string(n) + (n == 1 ? " value" : " values") +
                   ", not " + std::to_string(wanted),
               remedy);
}

void TableReader::refuse(std::string_view key, const std::string& wrong,
                         const std::string& remedy) {
  if (const Node* node = value(key)) {
    const bool is_value = node->kind != NodeKind::table && node->kind != NodeKind::list;
    notes_.error(notes_.place(*node),
                 std::string(key) + (is_value ? " " + shown(*node) : "") + ": " + wrong, remedy);
  }
}

std::string TableReader::below(std::string_view key) const {
  return (keys_.id.empty() ? "" : keys_.id + ".") + std::string(key);
}

std::optional<int> TableReader::whole(std::string_view key, int lowest, int highest,
                                      Needed needed) {
  const Node* node = required(key, needed, std::to_string(std::max(lowest, 2)));
  if (node == nullptr) {
    return std::nullopt;
  }
  int n = 0;
  const char* end = node->text.data() + node->text.size();
  const auto [stop, failed] = std::from_chars(node->text.data(), end, n);
  if (node->kind != NodeKind::number || failed != std::errc() || stop != end || n < lowest ||
      n > highest) {
    refuse(key,
           "not a whole number from " + std::to_string(lowest) + " to " + std::to_string(highest),
           node->kind == NodeKind::text ? "write the number without quotes"
                                        : "write a number in that range");
    return std::nullopt;
  }
  return n;
}

std::optional<bool> TableReader::truth(std::string_view key) {
  const Node* node = value(key);
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::truth) {
    wrong_kind(std::string(key), *node, "true or false", "write true or false, without quotes");
    return std::nullopt;
  }
  return node->text == "true";
}

std::optional<std::string> TableReader::text(std::string_view key, Needed needed) {
  const Node* node = required(key, needed, example_of(key, keys_));
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::text) {
    wrong_kind(std::string(key), *node, "a text", "put it in quotes");
    return std::nullopt;
  }
  if (node->text.find_first_not_of(" \t\r\n") == std::string::npos) {
    refuse(key, "it is empty", "write " + std::string(example_of(key, keys_)));
    return std::nullopt;
  }
  return within_length(*node, key) ? std::optional(node->text) : std::nullopt;
}

bool TableReader::within_length(const Node& text, std::string_view key) {
  if (text.text.size() <= kLongestText) {
    return true;
  }
  notes_.error(notes_.place(text), std::string(key) + " " + shown(text) + ": it is far too long",
               "shorten it to " + std::to_string(kLongestText) + " letters at most");
  return false;
}

std::optional<std::vector<std::string>> TableReader::texts(std::string_view key,
                                                           std::string_view what, Needed needed) {
  const Node* node = required(key, needed, "[\"...\", \"...\"]");
  if (node == nullptr) {
    return std::nullopt;
  }
  const std::string remedy = "write " + std::string(what) + " in quotes and brackets";
  if (node->kind != NodeKind::list) {
    wrong_kind(std::string(key), *node, "a list", remedy);
    return std::nullopt;
  }
  std::vector<std::string> texts;
  for (const Node& item : node->items) {
    if (item.kind != NodeKind::text) {
      wrong_kind(std::string(key), item, "a text", remedy);
      return std::nullopt;
    }
    if (!within_length(item, key)) {
      return std::nullopt;
    }
    texts.push_back(item.text);
  }
  return texts;
}

std::optional<std::vector<std::string>> TableReader::texts(std::string_view key, std::size_t count,
                                                           std::string_view what, Needed needed) {
  auto read = texts(key, what, needed);
  if (read && read->size() != count) {
    wrong_count(key, *value(key), count, "write " + std::string(what) + " in quotes and brackets");
    read.reset();
  }
  return read;
}

std::optional<std::string> TableReader::word(std::string_view key,
                                             const std::vector<std::string>& words, Needed needed) {
  const Node* node = required(key, needed, "\"" + words.front() + "\"");
  if (node == nullptr) {
    return std::nullopt;
  }
  const bool before = std::exchange(word_refused_, true);
  if (node->kind != NodeKind::text) {
    wrong_kind(std::string(key), *node, "a word", "write " + base::one_of(words) + ", in quotes");
    return std::nullopt;
  }
  const std::string word = canonical_word(node->text, notes_);
  if (std::find(words.begin(), words.end(), word) != words.end()) {
    word_refused_ = before;
    return word;
  }
  // Among names of one or two letters every slip is near.
  const bool long_enough = word.size() > 2;
  const std::string meant = long_enough ? base::nearest_word(word, words) : "";
  refuse(key, "not one of those known",
         meant.empty() ? "write " + base::one_of(words)
                       : "did you mean \"" + meant + "\"? (" + base::one_of(words) + ")");
  return std::nullopt;
}

std::optional<int> TableReader::axis(std::string_view key, Needed needed) {
  const std::optional<std::string> axis = word(key, {"x", "y", "z"}, needed);
  return axis ? std::optional<int>(axis->front() - 'x') : std::nullopt;
}

std::optional<work::Face> TableReader::face(std::string_view key, Needed needed) {
  const Node* node = required(key, needed, "\"+y\"");
  if (node == nullptr) {
    return std::nullopt;
  }
  const std::optional<work::Face> face =
      node->kind == NodeKind::text ? work::face_from(node->text) : std::nullopt;
  if (!face) {
    refuse(key, "not a face", std::string(kFaces));
  }
  return face;
}

std::optional<std::vector<work::Face>> TableReader::faces(std::string_view key) {
  const Node* node = value(key);
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::list) {
    wrong_kind(std::string(key), *node, "a list of faces", "write them like [\"-y\", \"+z\"]");
    return std::nullopt;
  }
  std::vector<work::Face> faces;
  for (const Node& item : node->items) {
    const std::optional<work::Face> face =
        item.kind == NodeKind::text ? work::face_from(item.text) : std::nullopt;
    if (!face) {
      notes_.error(notes_.place(item), std::string(key) + " " + shown(item) + ": not a face",
                   std::string(kFaces));
    } else {
      faces.push_back(*face);
    }
  }
  return faces.size() == node->items.size() ? std::optional(faces) : std::nullopt;
}

const Node* TableReader::table(std::string_view key) {
  const Node* node = value(key);
  if (node != nullptr && node->kind != NodeKind::table) {
    wrong_kind(std::string(key), *node, "a table",
               keys_.id.empty() ? "write [" + std::string(key) + "] and its keys on the lines below"
                                : "write " + std::string(key) + " = { ... }");
    return nullptr;
  }
  return node;
}

std::vector<const Node*> TableReader::tables(std::string_view key) {
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

void TableReader::note_missing() {
  for (const Missing& m : missing_) {
    notes_.error(place(), keys_.heading + " has no " + m.key, "add " + m.key + " = " + m.example);
  }
  missing_.clear();
}

bool TableReader::any_unknown() const {
  return std::any_of(node_.entries.begin(), node_.entries.end(), [&](const Entry& e) {
    return std::find(keys_.keys.begin(), keys_.keys.end(), base::canonical_key(e.key)) ==
           keys_.keys.end();
  });
}

bool TableReader::any_unread() const {
  return std::any_of(node_.entries.begin(), node_.entries.end(),
                     [](const Entry& e) { return e.value.kind == NodeKind::unread; });
}

void TableReader::finish() {
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
    notes_.error(
        notes_.place(entry), keys_.heading + " has no key \"" + shown(entry.key) + "\"",
        meant.empty() ? "it may have " + base::all_of(keys_.keys) : "did you mean \"" + meant + "\"?");
    // A key that is there but misspelt is not missing as well.
    missing_.erase(std::remove_if(missing_.begin(), missing_.end(),
                                  [&](const Missing& m) { return m.key == meant; }),
                   missing_.end());
  }
  note_missing();
}

}  // namespace planner::files
