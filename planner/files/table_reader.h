// Reads one table of a file key by key: what is missing, misspelt or out of range is noted with its
// place and what to write instead, and reading goes on.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planner/base/quantity_text.h"
#include "planner/files/keyed_table.h"
#include "planner/work/part.h"

namespace planner::files {

// Which lengths a key takes.
enum class Sign {
  above_zero,  // a size
  any          // a position
};

class TableReader : public KeyedTable {
 public:
  using KeyedTable::KeyedTable;

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
  std::optional<double> kilograms(std::string_view key);
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

  bool any_word_refused() const { return word_refused_; }  // that word() was asked for

 private:
  std::string example_length(std::string_view key) const;
  std::optional<geometry::Length> length_of(const Node& node, const std::string& key, Sign sign);
  std::optional<double> measure(std::string_view key, Needed needed,
                                base::Reading<double> (*read)(std::string_view),
                                std::string_view kind, std::string_view example);
  bool within_length(const Node& text, std::string_view key);  // else noted

  bool word_refused_ = false;
};

}  // namespace planner::files
