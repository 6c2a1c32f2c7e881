// The values that docs/plan.schema.json lists, for what the plan holds as enumerations.
#pragma once
#include <string_view>

#include "planner/advice/drawing_faults.h"
#include "planner/plan/plan.h"

namespace cli::json {

const char* word(planner::plan::TimeVerdict v);
const char* word(planner::plan::Comfort v);
const char* word(planner::plan::Level v);
const char* word(planner::plan::Strength v);
const char* word(planner::plan::StepKind v);
const char* word(planner::plan::Check v);
const char* word(planner::plan::PressedBy v);
const char* word(planner::plan::Proof v);
const char* word(planner::work::GrainClass v);
std::string_view word(planner::work::HeldBy v);
const char* word(planner::advice::FaultKind v);

}  // namespace cli::json
