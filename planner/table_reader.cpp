#include "planner/table_reader.h"

#include <algorithm>
#include <charconv>
#include <stdexcept>
#include <utility>

namespace planner {
namespace {

constexpr std::string_view kLengthForms =
    "write a length such as \"19 mm\", \"3/4 in\" or \"23 13/16 in\"";
constexpr std::string_view kFaces = "write -x, +x, -y, +y, -z or +z, in quotes";

}  // namespace

TableReader::TableReader(const Node& node, const TableKeys& keys, FileNotes& notes)
    : node_(node), keys_(keys), notes_(notes) {}

const Entry* TableReader::find(std::string_view key) const {
  if (std::find(keys_.keys.begin(), keys_.keys.end(), key) == keys_.keys.end()) {
    throw std::logic_error("key missing in file_keys.cpp: " + std::string(key));
  }
  const auto entry = std::find_if(node_.entries.begin(), node_.entries.end(), [&](const Entry& e) {
    return e.key == key || canonical_key(e.key) == key;
  });
  return entry == node_.entries.end() ? nullptr : &*entry;
}

bool TableReader::has(std::string_view key) const {
  return find(key) != nullptr;
}

Place TableReader::place(std::string_view key) const {
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
    notes_.error(place(), keys_.heading + " has no " + std::string(key),
                 "add " + std::string(key) + " = " + std::string(example));
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

void TableReader::refuse(std::string_view key, const std::string& wrong,
                         const std::string& remedy) {
  if (const Node* node = value(key)) {
    const bool is_value = node->kind != NodeKind::table && node->kind != NodeKind::list;
    notes_.error(notes_.place(*node),
                 std::string(key) + (is_value ? " " + shown(*node) : "") + ": " + wrong, remedy);
  }
}

std::optional<Length> TableReader::length_of(const Node& node, const std::string& key, Sign sign) {
  if (node.kind == NodeKind::unread) {
    return std::nullopt;
  }
  if (node.kind != NodeKind::text && node.kind != NodeKind::number) {
    wrong_kind(key, node, "a length", kLengthForms);
    return std::nullopt;
  }
  const Reading<Length> read = length_from(node.text, notes_.units);
  if (!read.value) {
    notes_.error(notes_.place(node), key + " " + shown(node) + ": " + read.wrong, read.remedy);
    return std::nullopt;
  }
  if (sign == Sign::above_zero && *read.value <= Length()) {
    notes_.error(notes_.place(node), key + " " + shown(node) + ": a size must be above zero", {});
    return std::nullopt;
  }
  return read.value;
}

std::optional<Length> TableReader::length(std::string_view key, Sign sign, Needed needed) {
  const Node* node =
      required(key, needed, notes_.units == Units::inch ? "\"3/4 in\"" : "\"19 mm\"");
  return node == nullptr ? std::nullopt : length_of(*node, std::string(key), sign);
}

std::optional<std::vector<Length>> TableReader::lengths(std::string_view key, Sign sign,
                                                        Needed needed) {
  const Node* node = required(key, needed, "[...], a list of lengths");
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::list) {
    wrong_kind(std::string(key), *node, "a list of lengths", "write them in brackets: [..., ...]");
    return std::nullopt;
  }
  std::vector<Length> lengths;
  bool whole = true;
  for (const Node& item : node->items) {
    const std::optional<Length> length = length_of(item, std::string(key), sign);
    whole = whole && length.has_value();
    lengths.push_back(length.value_or(Length()));
  }
  return whole ? std::optional(lengths) : std::nullopt;
}

std::optional<std::vector<Length>> TableReader::lengths(std::string_view key, std::size_t count,
                                                        std::string_view what, Sign sign,
                                                        Needed needed) {
  const Node* node = required(key, needed, "[...]: " + std::string(what));
  std::optional<std::vector<Length>> read = lengths(key, sign, Needed::no);
  if (node != nullptr && node->kind == NodeKind::list && node->items.size() != count) {
    notes_.error(notes_.place(*node),
                 std::string(key) + " has " + std::to_string(node->items.size()) + " values, not " +
                     std::to_string(count),
                 "write " + std::string(what) + " in brackets");
    return std::nullopt;
  }
  return read;
}

std::optional<double> TableReader::measure(std::string_view key, Needed needed,
                                           Reading<double> (*read)(std::string_view),
                                           std::string_view kind, std::string_view example) {
  const Node* node = required(key, needed, example);
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::text && node->kind != NodeKind::number) {
    wrong_kind(std::string(key), *node, kind, "write it like " + std::string(example));
    return std::nullopt;
  }
  const Reading<double> reading = read(node->text);
  if (!reading.value) {
    refuse(key, reading.wrong, reading.remedy);
  }
  return reading.value;
}

namespace {
constexpr std::string_view kMinutes = "\"10 min\"";
}

std::optional<double> TableReader::seconds(std::string_view key) {
  const std::optional<double> s = measure(key, Needed::no, seconds_from, "a time", kMinutes);
  if (s && *s <= 0) {
    refuse(key, "a time must be above zero", {});
    return std::nullopt;
  }
  return s;
}
std::optional<double> TableReader::celsius(std::string_view key) {
  return measure(key, Needed::no, celsius_from, "a temperature", "\"20 C\" or \"68 F\"");
}
std::optional<double> TableReader::millilitres(std::string_view key) {
  const std::optional<double> ml =
      measure(key, Needed::no, millilitres_from, "a volume", "\"250 ml\" or \"8 fl oz\"");
  if (ml && *ml < 0) {
    refuse(key, "a volume cannot be negative", {});
    return std::nullopt;
  }
  return ml;
}
std::optional<double> TableReader::newtons(std::string_view key) {
  const std::optional<double> force =
      measure(key, Needed::no, newtons_from, "a force", "\"1000 N\" or \"400 lbf\"");
  if (force && *force <= 0) {
    refuse(key, "a force must be above zero", {});
    return std::nullopt;
  }
  return force;
}
std::optional<double> TableReader::seconds_per_mm(std::string_view key) {
  return measure(key, Needed::no, seconds_per_mm_from, "a time per length", "\"15 s per ft\"");
}
std::optional<double> TableReader::seconds_per_mm2(std::string_view key) {
  return measure(key, Needed::no, seconds_per_mm2_from, "a time per area", "\"60 s per sq ft\"");
}
std::optional<double> TableReader::degrees(std::string_view key, Needed needed) {
  return measure(key, needed, degrees_from, "an angle", "\"45 deg\"");
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
           {});
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
  const Node* node = required(key, needed, "\"...\"");
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::text) {
    wrong_kind(std::string(key), *node, "a text", "put it in quotes");
    return std::nullopt;
  }
  if (node->text.find_first_not_of(" \t\r\n") == std::string::npos) {
    refuse(key, "it is empty", {});
    return std::nullopt;
  }
  return node->text;
}

std::optional<std::vector<std::string>> TableReader::texts(std::string_view key, std::size_t count,
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
    texts.push_back(item.text);
  }
  if (texts.size() != count) {
    notes_.error(notes_.place(*node),
                 std::string(key) + " has " + std::to_string(texts.size()) + " values, not " +
                     std::to_string(count),
                 remedy);
    return std::nullopt;
  }
  return texts;
}

std::optional<std::string> TableReader::word(std::string_view key,
                                             const std::vector<std::string>& words, Needed needed) {
  const Node* node = required(key, needed, "\"" + words.front() + "\"");
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::text) {
    wrong_kind(std::string(key), *node, "a word", "write " + one_of(words) + ", in quotes");
    return std::nullopt;
  }
  const std::string word = canonical_word(node->text, notes_);
  if (std::find(words.begin(), words.end(), word) != words.end()) {
    return word;
  }
  const std::string meant = nearest_word(word, words);
  refuse(key, "not one of those known",
         meant.empty() ? "write " + one_of(words)
                       : "did you mean \"" + meant + "\"? (" + one_of(words) + ")");
  return std::nullopt;
}

std::optional<int> TableReader::axis(std::string_view key, Needed needed) {
  const std::optional<std::string> axis = word(key, {"x", "y", "z"}, needed);
  return axis ? std::optional<int>(axis->front() - 'x') : std::nullopt;
}

std::optional<Face> TableReader::face(std::string_view key, Needed needed) {
  const Node* node = required(key, needed, "\"+y\"");
  if (node == nullptr) {
    return std::nullopt;
  }
  const std::optional<Face> face =
      node->kind == NodeKind::text ? face_from(node->text) : std::nullopt;
  if (!face) {
    refuse(key, "not a face", std::string(kFaces));
  }
  return face;
}

std::optional<std::vector<Face>> TableReader::faces(std::string_view key) {
  const Node* node = value(key);
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::list) {
    wrong_kind(std::string(key), *node, "a list of faces", "write them like [\"-y\", \"+z\"]");
    return std::nullopt;
  }
  std::vector<Face> faces;
  for (const Node& item : node->items) {
    const std::optional<Face> face =
        item.kind == NodeKind::text ? face_from(item.text) : std::nullopt;
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
               "write [" + std::string(key) + "] and its keys on the lines below");
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
  const std::string brackets =
      "write [[" + std::string(key) + "]], with two brackets, above each one";
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

void TableReader::finish() {
  std::vector<std::string> seen;
  for (const Entry& entry : node_.entries) {
    const std::string key = canonical_key(entry.key);
    const bool known = std::find(keys_.keys.begin(), keys_.keys.end(), key) != keys_.keys.end();
    if (known && std::find(seen.begin(), seen.end(), key) != seen.end()) {
      notes_.error(notes_.place(entry), "\"" + entry.key + "\" is given twice",
                   "leave one of them out");
    }
    if (known) {
      seen.push_back(key);
      continue;
    }
    const std::string meant = nearest(key, keys_.keys);
    notes_.error(
        notes_.place(entry), keys_.heading + " has no key \"" + shown(entry.key) + "\"",
        meant.empty() ? "it may have " + all_of(keys_.keys) : "did you mean \"" + meant + "\"?");
  }
}

}  // namespace planner
