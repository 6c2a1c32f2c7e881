#include <fmt/format.h>

#include "cli/commands/commands.h"
#include "cli/json/json.h"
#include "cli/terminal/output.h"
#include "cli/text/page.h"
#include "planner/tables/listing.h"

namespace cli::commands {
namespace {

std::string value_text(const planner::tables::ListedValue& value) {
  return value.unit.empty() ? value.text : value.text + " " + value.unit;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) {
    text += (text.empty() ? "" : ", ") + word;
  }
  return text;
}

// A source that several values in a row share is told once, under the last of them.
void values_of(const planner::tables::ListedRow& row, text::Page& page) {
  for (std::size_t i = 0; i < row.values.size(); ++i) {
    const planner::tables::ListedValue& value = row.values[i];
    page.line(fmt::format("  {}: {}", value.label, value_text(value)), 4);
    const std::string source = to_text(value.source);
    if (i + 1 == row.values.size() || to_text(row.values[i + 1].source) != source) {
      page.item("   ", "source: " + source);
    }
  }
}

std::string table_text(const planner::tables::Listing& listing, bool colour) {
  text::Page page(colour);
  page.heading(listing.title);
  page.line(listing.reading);
  for (const planner::tables::ListedRow& row : listing.rows) {
    page.heading(row.id + ": " + row.name);
    if (!row.also.empty()) {
      page.line("  also: " + joined(row.also), 4);
    }
    values_of(row, page);
    for (const std::string& note : row.notes) {
      page.line("  note: " + note, 4);
    }
  }
  return page.text();
}

}  // namespace

terminal::ExitStatus run_tables(const terminal::Options& options) {
  // The command line lets no other name through.
  const planner::tables::Listing listing = *planner::tables::listing(options.table);
  if (options.json && !terminal::put_json(*options.json, json::json_table(listing))) {
    return terminal::ExitStatus::bad_input;
  }
  const bool printed =
      options.json == "-" || terminal::print(table_text(listing, style_for(options).colour));
  return printed ? terminal::ExitStatus::works : terminal::ExitStatus::bad_input;
}

}  // namespace cli::commands
