// How the parts go together, as SVG.
#pragma once
#include <string>
#include <vector>

#include "planner/plan/plan.h"

namespace cli::html {

// The stage's parts pulled apart the way they go together, lettered in the order they are placed,
// with an arrow a movement and hatching where glue is spread.
std::string exploded_svg(const planner::plan::Plan& plan, const planner::plan::Stage& stage);

// How far each part of the plan is pulled off, by part, when all stages are pulled apart.
std::vector<geometry::Direction> pulled_apart(const planner::plan::Plan& plan);

// Parts in the order they are placed.
std::vector<planner::work::PartId> placing_order(const planner::plan::Stage& stage);

}  // namespace cli::html
