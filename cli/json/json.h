// What machines read, as docs/plan.schema.json says. Numbers are rounded here, once, so that the
// same plan gives the same bytes.
#pragma once
#include <string>

#include "planner/plan/plan.h"
#include "planner/tables/listing.h"

namespace cli::json {

inline constexpr int kSchemaVersion = 1;

std::string json_sheet(const planner::plan::Plan& plan);

// The input's mistakes, for a reader that asked for JSON and can't have a plan.
std::string json_failure(const planner::base::Diagnostics& diagnostics);

// A table of the program, each value with its source beside it.
std::string json_table(const planner::tables::Listing& listing);

// True where the text is one JSON document.
bool is_json(const std::string& text);

}  // namespace cli::json
