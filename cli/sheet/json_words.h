// The values that docs/plan.schema.json lists, for what the plan holds as enumerations.
#pragma once
#include "planner/mend_first.h"
#include "planner/plan.h"

namespace cli {

const char* word(planner::TimeVerdict v);
const char* word(planner::Comfort v);
const char* word(planner::Level v);
const char* word(planner::StepKind v);
const char* word(planner::Proof v);
const char* word(planner::GrainClass v);
const char* word(planner::MendKind v);

}  // namespace cli
