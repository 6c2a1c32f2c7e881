// The values that docs/plan.schema.json lists, for what the plan holds as enumerations.
#pragma once
#include "planner/plan/plan.h"
#include "planner/say/drawing_faults.h"

namespace cli::json {

const char* word(planner::plan::TimeVerdict v);
const char* word(planner::plan::Comfort v);
const char* word(planner::plan::Level v);
const char* word(planner::plan::StepKind v);
const char* word(planner::plan::Proof v);
const char* word(planner::work::GrainClass v);
const char* word(planner::say::FaultKind v);

}  // namespace cli::json
