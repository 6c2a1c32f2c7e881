// The quantities of table_reader.h.
#include <utility>

#include "planner/files/table_reader.h"

namespace planner::files {
namespace {

constexpr std::string_view kLengthForms =
    "write a length such as \"19 mm\", \"3/4 in\" or \"23 13/16 in\"";
constexpr std::string_view kMinutes = "\"10 min\"";

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
  const base::Reading<geometry::Length> read = length_from(node.text, notes_.units);
  if (!read.value) {
    notes_.error(notes_.place(node), key + " " + shown(node) + ": " + read.wrong, read.remedy);
    return std::nullopt;
  }
  if (sign == Sign::above_zero && *read.value <= geometry::Length()) {
    notes_.error(
        notes_.place(node), key + " " + shown(node) + ": a size must be above zero",
        *read.value < geometry::Length() ? "leave the minus sign out" : std::string(kLengthForms));
    return std::nullopt;
  }
  return read.value;
}

std::string TableReader::example_length(std::string_view key) const {
  const bool inches = notes_.units == base::Units::inch;
  const bool of_cut = keys_.id.rfind("cut ", 0) == 0;
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
    notes_.error(notes_.place(*node),
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
    notes_.error({notes_.file, 1, 1}, keys_.heading + " does not say what a bare number measures",
                 "add units = \"mm\" or units = \"in\" above all tables");
  }
  const auto units = word("units", {"mm", "in"}, Needed::no);
  notes_.units = units == "in" ? base::Units::inch : base::Units::mm;
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

}  // namespace planner::files
