#include "planner/files/table_reader.h"

#include <algorithm>
#include <array>
#include <charconv>
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
  const auto example = std::find_if(kExamples.begin(), kExamples.end(),
                                    [&](const Example& e) { return e.key == key; });
  return example == kExamples.end() ? "\"...\"" : example->text;
}

constexpr std::size_t kLongestText = 1000;  // no name or path of a file is longer
constexpr std::string_view kLengthForms =
    "write a length such as \"19 mm\", \"3/4 in\" or \"23 13/16 in\"";
constexpr std::string_view kMinutes = "\"10 min\"";
constexpr std::string_view kFaces = "write -x, +x, -y, +y, -z or +z, in quotes";

}  // namespace

std::optional<geometry::Length> TableReader::length_of(const Node& node, const std::string& key,
                                                       Sign sign) {
  if (node.kind == NodeKind::unread) {
    return std::nullopt;
  }
  if (node.kind != NodeKind::text && node.kind != NodeKind::number) {
    wrong_kind(key, node, "a length", kLengthForms);
    return std::nullopt;
  }
  const base::Reading<geometry::Length> read = length_from(node.text, notes().units);
  if (!read.value) {
    notes().error(notes().place(node), key + " " + shown(node) + ": " + read.wrong, read.remedy);
    return std::nullopt;
  }
  if (sign == Sign::above_zero && *read.value <= geometry::Length()) {
    notes().error(
        notes().place(node), key + " " + shown(node) + ": a size must be above zero",
        *read.value < geometry::Length() ? "leave the minus sign out" : std::string(kLengthForms));
    return std::nullopt;
  }
  return read.value;
}

std::string TableReader::example_length(std::string_view key) const {
  const bool inches = notes().units == base::Units::inch;
  const bool of_cut = keys().id.rfind("cut ", 0) == 0;
  if (!of_cut && (key == "length" || key == "width" || key == "opening")) {
    return inches ? "\"14 in\"" : "\"400 mm\"";
  }
  return inches ? "\"3/4 in\"" : "\"19 mm\"";
}

std::optional<geometry::Length> TableReader::length(std::string_view key, Sign sign,
                                                    Needed needed) {
  const Node* node = required(key, needed, example_length(key));
  return node == nullptr ? std::nullopt : length_of(*node, std::string(key), sign);
}

std::optional<std::vector<geometry::Length>> TableReader::lengths(std::string_view key, Sign sign,
                                                                  Needed needed) {
  const Node* node = required(key, needed, "[...], a list of lengths");
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::list) {
    wrong_kind(std::string(key), *node, "a list of lengths", "write them in brackets: [..., ...]");
    return std::nullopt;
  }
  constexpr std::size_t kMostLengths = 1000;
  if (node->items.size() > kMostLengths) {
    notes().error(notes().place(*node),
                  std::string(key) + " has " + std::to_string(node->items.size()) + " values",
                  std::to_string(kMostLengths) + " at most");
    return std::nullopt;
  }
  std::vector<geometry::Length> lengths;
  bool whole = true;
  for (const Node& item : node->items) {
    const std::optional<geometry::Length> length = length_of(item, std::string(key), sign);
    whole = whole && length.has_value();
    lengths.push_back(length.value_or(geometry::Length()));
  }
  return whole ? std::optional(lengths) : std::nullopt;
}

std::optional<std::vector<geometry::Length>> TableReader::lengths(std::string_view key,
                                                                  std::size_t count,
                                                                  std::string_view what, Sign sign,
                                                                  Needed needed) {
  const Node* node = required(key, needed, "[...]: " + std::string(what));
  std::optional<std::vector<geometry::Length>> read = lengths(key, sign, Needed::no);
  if (node != nullptr && node->kind == NodeKind::list && node->items.size() != count) {
    wrong_count(key, *node, count, "write " + std::string(what) + " in brackets");
    return std::nullopt;
  }
  return read;
}

std::optional<double> TableReader::measure(std::string_view key, Needed needed,
                                           base::Reading<double> (*read)(std::string_view),
                                           std::string_view kind, std::string_view example) {
  const Node* node = required(key, needed, example);
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::text && node->kind != NodeKind::number) {
    wrong_kind(std::string(key), *node, kind, "write it like " + std::string(example));
    return std::nullopt;
  }
  const base::Reading<double> reading = read(node->text);
  if (!reading.value) {
    refuse(key, reading.wrong, reading.remedy);
  }
  return reading.value;
}

void TableReader::units() {
  if (!has("units")) {
    notes().error({notes().file, 1, 1},
                  keys().heading + " does not say what a bare number measures",
                  "add units = \"mm\" or units = \"in\" above all tables");
  }
  const auto units = word("units", {"mm", "in"}, Needed::no);
  notes().units = units == "in" ? base::Units::inch : base::Units::mm;
}

std::optional<double> TableReader::seconds(std::string_view key) {
  const std::optional<double> s = measure(key, Needed::no, base::seconds_from, "a time", kMinutes);
  if (s && *s <= 0) {
    refuse(key, "a time must be above zero", "write it like " + std::string(kMinutes));
    return std::nullopt;
  }
  constexpr double kLongest_s = 30 * 24 * 3600.0;  // no glue takes as long
  if (s && *s > kLongest_s) {
    refuse(key, "it is over 30 days", "check the unit");
    return std::nullopt;
  }
  return s;
}
std::optional<double> TableReader::share(std::string_view key) {
  return measure(key, Needed::no, base::share_from, "a share", "\"40 %\"");
}

std::optional<double> TableReader::celsius(std::string_view key) {
  return measure(key, Needed::no, base::celsius_from, "a temperature", "\"20 C\" or \"68 F\"");
}
std::optional<double> TableReader::millilitres(std::string_view key) {
  const std::optional<double> ml =
      measure(key, Needed::no, base::millilitres_from, "a volume", "\"250 ml\" or \"8 fl oz\"");
  if (ml && *ml < 0) {
    refuse(key, "a volume cannot be negative", "leave the minus sign out");
    return std::nullopt;
  }
  constexpr double kMost_ml = 1e6;
  if (ml && *ml > kMost_ml) {
    refuse(key, "it is over 1000 litres", "check the unit");
    return std::nullopt;
  }
  return ml;
}
std::optional<double> TableReader::kilograms(std::string_view key) {
  const std::optional<double> mass =
      measure(key, Needed::yes, base::kilograms_from, "a mass", "\"10 kg\" or \"20 lb\"");
  constexpr double kMost_kg = 1000;  // nobody lays more on by hand
  if (mass && !(*mass > 0 && *mass <= kMost_kg)) {
    refuse(key, "no weight that a person lays on", "write it like \"10 kg\"");
    return std::nullopt;
  }
  return mass;
}
std::optional<double> TableReader::newtons(std::string_view key) {
  const std::optional<double> force =
      measure(key, Needed::no, base::newtons_from, "a force", "\"1000 N\" or \"400 lbf\"");
  if (force && *force <= 0) {
    refuse(key, "a force must be above zero", "write it like \"1000 N\"");
    return std::nullopt;
  }
  constexpr double kMost_N = 100'000;  // ten times what strong hands give with the largest clamp
  if (force && *force > kMost_N) {
    refuse(key, "no clamp gives over 100 kN", "check the unit");
    return std::nullopt;
  }
  return force;
}
std::optional<double> TableReader::seconds_per_mm(std::string_view key) {
  return measure(key, Needed::no, base::seconds_per_mm_from, "a time per length",
                 "\"15 s per ft\"");
}
std::optional<double> TableReader::seconds_per_mm2(std::string_view key) {
  return measure(key, Needed::no, base::seconds_per_mm2_from, "a time per area",
                 "\"60 s per sq ft\"");
}
std::optional<double> TableReader::degrees(std::string_view key, Needed needed) {
  return measure(key, needed, base::degrees_from, "an angle", "\"45 deg\"");
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
  const Node* node = required(key, needed, example_of(key, keys()));
  if (node == nullptr) {
    return std::nullopt;
  }
  if (node->kind != NodeKind::text) {
    wrong_kind(std::string(key), *node, "a text", "put it in quotes");
    return std::nullopt;
  }
  if (node->text.find_first_not_of(" \t\r\n") == std::string::npos) {
    refuse(key, "it is empty", "write " + std::string(example_of(key, keys())));
    return std::nullopt;
  }
  return within_length(*node, key) ? std::optional(node->text) : std::nullopt;
}

bool TableReader::within_length(const Node& text, std::string_view key) {
  if (text.text.size() <= kLongestText) {
    return true;
  }
  notes().error(notes().place(text), std::string(key) + " " + shown(text) + ": it is far too long",
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
  const std::string word = canonical_word(node->text, notes());
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
      notes().error(notes().place(item), std::string(key) + " " + shown(item) + ": not a face",
                    std::string(kFaces));
    } else {
      faces.push_back(*face);
    }
  }
  return faces.size() == node->items.size() ? std::optional(faces) : std::nullopt;
}

}  // namespace planner::files
