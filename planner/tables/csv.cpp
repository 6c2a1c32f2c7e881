#include "planner/tables/csv.h"

#include <array>
#include <charconv>
#include <stdexcept>
#include <utility>

namespace planner::tables {

namespace {
constexpr std::array kMarks{std::pair{Mark::published, std::string_view("published")},
                            std::pair{Mark::common_practice, std::string_view("common practice")},
                            std::pair{Mark::from_memory, std::string_view("from memory")},
                            std::pair{Mark::derived, std::string_view("derived")}};
}

std::string_view to_text(Mark mark) {
  for (const auto& [each, name] : kMarks)
    if (each == mark)
      return name;
  return {};
}

std::string to_text(const Source& source) {
  return std::string(to_text(source.mark)) + ": " + source.text;
}


Row::Row(const std::vector<std::string>& header, std::vector<std::string> cells)
    : cells_(std::move(cells)) {
  for (std::size_t i = 0; i < header.size(); ++i)
    columns_[header[i]] = i;
  if (cells_.size() != header.size())
    fail("", "does not have one cell a column");
}

void Row::fail(std::string_view column, std::string_view why) const {
  throw std::logic_error("table row '" + (cells_.empty() ? std::string() : cells_.front()) + "' " +
                         std::string(column) + ": " + std::string(why));
}

const std::string& Row::text(std::string_view column) const {
  const auto found = columns_.find(column);
  if (found == columns_.end())
    fail(column, "no such column");
  return cells_[found->second];
}

bool Row::yes(std::string_view column) const {
  const std::string& cell = text(column);
  if (cell != "yes" && cell != "no")
    fail(column, "neither yes nor no");
  return cell == "yes";
}

double Row::number(std::string_view column) const {
  const std::string& cell = text(column);
  double value = 0;
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  if (error != std::errc() || end != cell.data() + cell.size())
    fail(column, "not a number");
  return value;
}

std::optional<double> Row::maybe(std::string_view column) const {
  if (blank(column))
    return {};
  return number(column);
}

Range Row::range(std::string_view lo, std::string_view hi) const {
  return {number(lo), number(hi)};
}

std::optional<Range> Row::maybe_range(std::string_view lo, std::string_view hi) const {
  if (blank(lo) && blank(hi))
    return {};
  return range(lo, hi);
}

Source Row::source(std::string_view column) const {
  const std::string_view cell = text(column);
  if (cell.empty())
    return {};
  for (const auto& [mark, name] : kMarks)
    if (cell.starts_with(name) && cell.substr(name.size()).starts_with(": "))
      return {mark, std::string(cell.substr(name.size() + 2))};
  fail(column, "a source without its mark");
}

std::vector<std::string> Row::list(std::string_view column) const {
  std::vector<std::string> out;
  std::string_view rest = text(column);
  while (!rest.empty()) {
    const std::size_t end = rest.find(';');
    out.emplace_back(rest.substr(0, end));
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
  }
  return out;
}

std::vector<Row> read_csv(std::string_view text) {
  std::vector<std::string> header, cells;
  std::vector<Row> rows;
  std::string cell;
  bool quoted = false;
  const auto end_of_line = [&] {
    cells.push_back(std::exchange(cell, {}));
    if (header.empty())
      header = std::exchange(cells, {});
    else
      rows.emplace_back(header, std::exchange(cells, {}));
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c != '"') {
        cell += c;
      } else if (i + 1 < text.size() && text[i + 1] == '"') {
        cell += text[++i];
      } else {
        quoted = false;
      }
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      cells.push_back(std::exchange(cell, {}));
    } else if (c == '\n') {
      end_of_line();
    } else if (c != '\r') {
      cell += c;
    }
  }
  if (!cell.empty() || !cells.empty())
    end_of_line();
  return rows;
}

}  // namespace planner::tables
