// How high the work must stand off the bench, so that jaws and bars pass under it.
#pragma once
#include "planner/plan.h"
#include "planner/shop.h"

namespace planner {

// From the bench to the side that lies on it, for the bodies of the stage's two-jawed clamps, in
// steps that people cut (crush.h); 0 where nothing reaches below. A strap lies round the work.
double risers_mm(const Stage& stage, std::span<const PlanPart> parts, const Shop& shop,
                 Units units);

}  // namespace planner
