// Each part that gets glue, opened out, as SVG.
#pragma once
#include <string>
#include <vector>

#include "planner/plan/plan.h"

namespace cli::html {

// The stage's parts that get glue, in the order of the job.
std::vector<planner::work::PartId> spread_parts(const planner::plan::Plan& plan,
                                                const planner::plan::Stage& stage);

// A part with its edges and ends folded out round its wide face: hatched where glue is spread,
// dashed where only its mate is, and each joint's number, A at one end and B at the other, the same
// on both parts. Sides without a joint are left out.
std::string opened_part_svg(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                            planner::work::PartId part);

}  // namespace cli::html
