// Reads our own tables: comma-separated, a header line, cells quoted with "" for a quote inside.
#pragma once
#include <initializer_list>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "planner/tables/source.h"

namespace planner::tables {

// One row by its columns' names. A missing column or a cell that is not what is asked for is a
// mistake of ours and throws std::logic_error with the row's first cell and the column.
class Row {
 public:
  Row(const std::vector<std::string>& header, std::vector<std::string> cells);

  const std::string& text(std::string_view column) const;
  bool blank(std::string_view column) const { return text(column).empty(); }
  bool yes(std::string_view column) const;  // "yes" or "no"
  double number(std::string_view column) const;
  std::optional<double> maybe(std::string_view column) const;  // nothing where the cell is blank
  Range range(std::string_view lo, std::string_view hi) const;
  std::optional<Range> maybe_range(std::string_view lo, std::string_view hi) const;
  Source source(std::string_view column) const;  // "mark: text"; blank cells give from_memory, ""
  // The value beside the word that the cell holds.
  template <class Value>
  Value choice(std::string_view column,
               std::initializer_list<std::pair<std::string_view, Value>> words) const {
    for (const auto& [word, value] : words)
      if (text(column) == word)
        return value;
    fail(column, "not one of its words");
  }
  std::vector<std::string> list(std::string_view column) const;  // split at semicolons

 private:
  [[noreturn]] void fail(std::string_view column, std::string_view why) const;
  std::map<std::string, std::size_t, std::less<>> columns_;
  std::vector<std::string> cells_;
};

// The rows in the file's order.
std::vector<Row> read_csv(std::string_view text);

// The text of planner/tables/<name>.csv, compiled in. Empty where there is no such table.
std::string_view embedded(std::string_view name);

// The embedded table `name`, each row through `read`.
template <class Typed>
std::vector<Typed> typed_rows(std::string_view name, Typed (*read)(const Row&)) {
  std::vector<Typed> out;
  for (const Row& row : read_csv(embedded(name)))
    out.push_back(read(row));
  return out;
}

}  // namespace planner::tables
