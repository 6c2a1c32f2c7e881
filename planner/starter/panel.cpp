#include <utility>

#include "planner/part_file.h"
#include "planner/starter/starter.h"

namespace planner::starter {
namespace {

constexpr int kMostBoards = 1000;

// `boards` is a list of widths, or a number of equal boards that make up `width`.
std::vector<Length> read_widths(TableReader& table, FileNotes& notes) {
  const Node* boards = table.value("boards");
  const auto width = table.length("width", Sign::above_zero, Needed::no);
  if (boards == nullptr || boards->kind == NodeKind::list) {
    const auto widths =
        table.lengths("boards", Sign::above_zero, Needed::yes).value_or(std::vector<Length>());
    if (boards != nullptr && boards->items.size() < 2) {
      table.refuse("boards", "one board is no glue-up", "list the width of each board");
    }
    Length sum;
    for (const Length one : widths) {
      sum += one;
    }
    if (width && !widths.empty() && sum != *width) {
      table.refuse("width", "the boards add up to " + to_text(sum, notes.units),
                   "leave width out, or mend the list");
    }
    return widths;
  }
  const auto count = table.whole("boards", 2, kMostBoards, Needed::yes);
  if (!table.has("width")) {
    notes.error(table.place("boards"), "a number of boards needs the panel's width",
                "add width = the whole width, or list each board's: boards = [..., ...]");
  }
  if (!count || !width) {
    return {};
  }
  std::vector<Length> widths(static_cast<std::size_t>(*count), *width / *count);
  widths.back() = *width - (*count - 1) * widths.front();
  return widths;
}

}  // namespace

Expansion panel(const Node& node, FileNotes& notes) {
  const std::size_t before = notes.diagnostics.size();
  TableReader table(node, job_keys("panel"), notes);
  const auto length = table.length("length", Sign::above_zero, Needed::yes);
  const auto thickness = table.length("thickness", Sign::above_zero, Needed::yes);
  const auto species = read_species(table, "species", Needed::yes);
  const std::vector<Length> widths = read_widths(table, notes);
  table.finish();
  Expansion made;
  if (notes.diagnostics.size() != before || table.any_unread()) {
    return made;
  }
  Length low;
  for (const Length width : widths) {
    Part board;
    board.name = "board " + std::to_string(made.parts.size() + 1);
    board.species = *species;
    board.length = *length;
    board.width = width;
    board.thickness = *thickness;
    board.at = {Length(), low, Length()};
    board.place = table.place("boards");
    low += width;
    made.parts.push_back(std::move(board));
  }
  return made;
}

}  // namespace planner::starter
