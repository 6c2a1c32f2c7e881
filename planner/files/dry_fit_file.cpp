#include "planner/files/dry_fit_file.h"

#include <algorithm>

#include "planner/files/table_reader.h"

namespace planner::files {
namespace {

void check_names(const Node& list, std::span<const work::Part> parts, FileNotes& notes) {
  std::vector<std::string> names;
  for (const work::Part& part : parts) {
    names.push_back(part.name);
  }
  for (const Node& name : list.items) {
    if (std::find(names.begin(), names.end(), name.text) == names.end()) {
      const std::string meant = base::nearest(name.text, names);
      notes.error(
          notes.place(name), "no part is named " + shown(name),
          meant.empty() ? "write one of " + base::one_of(names) : "did you mean \"" + meant + "\"?");
    }
  }
}

std::optional<work::MeasuredCut> read_cut(const Node& node, std::span<const work::Part> parts,
                                          bool names_known, FileNotes& notes) {
  TableReader table(node, job_keys("dry_fit cut"), notes);
  work::MeasuredCut cut;
  cut.place = notes.place(node);
  const auto between = table.texts("between", 2, "the names of two parts", Needed::yes);
  cut.depth = table.length("depth", Sign::above_zero, Needed::no);
  cut.width = table.length("width", Sign::above_zero, Needed::no);
  if (!table.has("depth") && !table.has("width")) {
    notes.error(table.place(), "[[dry_fit.cut]] has neither depth nor width",
                "add what was measured of the cut");
  }
  table.finish();
  if (!between) {
    return std::nullopt;
  }
  if (names_known) {
    check_names(*table.value("between"), parts, notes);
  }
  cut.between = {(*between)[0], (*between)[1]};
  return cut;
}

std::optional<work::MeasuredWind> read_wind(TableReader& table) {
  const auto reading = table.length("wind", Sign::above_zero, Needed::no);
  const auto sticks = table.length("sticks", Sign::above_zero, Needed::no);
  const auto high = table.word("high", {"left", "right"}, Needed::no);
  if (!reading) {
    return std::nullopt;
  }
  if (!sticks) {
    table.refuse("wind", "not to be judged without the length of the sticks",
                 "add sticks = \"20 in\", how long the winding sticks are");
    return std::nullopt;
  }
  return work::MeasuredWind{*reading, *sticks, high.value_or(""), table.place("wind")};
}

}  // namespace

work::DryFit read_dry_fit(const Node& node, std::span<const work::Part> parts, FileNotes& notes) {
  const bool names_known = !has_errors(notes.diagnostics);
  TableReader table(node, job_keys("dry_fit"), notes);
  work::DryFit fit;
  fit.place = notes.place(node);
  fit.diagonals =
      table
          .lengths("diagonals", 2, "from corner to corner, both ways", Sign::above_zero, Needed::no)
          .value_or(fit.diagonals);
  fit.around = table.word("around", {"inside", "outside"}, Needed::no).value_or("");
  fit.openings = table.lengths("openings", Sign::above_zero, Needed::no).value_or(fit.openings);
  if (const Node* closes = table.value("closes"); closes != nullptr && !closes->items.empty()) {
    fit.closes = table.texts("closes", closes->items.size(), "names of parts", Needed::no)
                     .value_or(fit.closes);
    if (names_known) {
      check_names(*closes, parts, notes);
    }
  } else if (closes != nullptr) {
    table.refuse("closes", "not a list of names", "write closes = [\"left\", \"right\"]");
  }
  fit.wind = read_wind(table);
  for (const Node* cut : table.tables("cut")) {
    if (auto read = read_cut(*cut, parts, names_known, notes)) {
      fit.cuts.push_back(std::move(*read));
    }
  }
  table.finish();
  return fit;
}

}  // namespace planner::files
