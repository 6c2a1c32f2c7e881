// The tables as a reader sees them: every value in the words and digits of its source, with the
// source beside it.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planner/tables/source.h"

namespace planner::tables {

struct ListedValue {
  std::string label;  // "open time"
  std::string text;   // "5-6", "25 x 25", "yes"; as printed in the table
  std::string unit;   // "min"; may be empty
  Source source;
};

struct ListedRow {
  std::string id, name;
  std::vector<std::string> also;    // other names that the job and shop files may use
  std::vector<ListedValue> values;  // blank cells are left out
  std::vector<std::string> notes;   // in words, without a source of their own
};

struct Listing {
  std::string title;
  std::string reading;  // how the values are used, in a sentence
  std::vector<ListedRow> rows;
};

// "woods", "glues", "clamps", "pressures".
const std::vector<std::string>& listing_names();

// Nothing where `name` is none of them.
std::optional<Listing> listing(std::string_view name);

}  // namespace planner::tables
