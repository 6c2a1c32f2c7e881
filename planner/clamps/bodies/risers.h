// How high the work must stand off the bench, so that jaws and bars pass under it.
#pragma once
#include "planner/plan/plan.h"
#include "planner/work/shop.h"

namespace planner::clamps::bodies {

// From the bench to the side that lies on it, for the bodies of the stage's two-jawed clamps, in
// steps that people cut (crush.h); 0 where nothing reaches below. A strap lies round the work.
double risers_mm(const plan::Stage& stage, std::span<const plan::PlanPart> parts,
                 const work::Shop& shop, base::Units units);

}  // namespace planner::clamps::bodies
