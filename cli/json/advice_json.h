// What a plan advises, as kinds with their subjects and amounts, and the English beside them.
#pragma once
#include "cli/json/json_values.h"

namespace cli::json {

Json way_json(const planner::plan::Plan& plan, const planner::plan::WayOut& way);
Json finding_json(const planner::plan::Plan& plan, const planner::plan::PlacedFinding& finding);
Json placed_mend_json(const planner::plan::Plan& plan, const planner::plan::PlacedMend& mend);
Json spare_json(const planner::plan::Plan& plan, const planner::plan::SpareNote& note);

}  // namespace cli::json
