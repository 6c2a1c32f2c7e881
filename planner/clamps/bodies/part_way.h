// Parts that come to their places past clamps that stand already.
#pragma once
#include "planner/plan/plan.h"
#include "planner/work/shop.h"

namespace planner::clamps::bodies {

// The clamp's bar, jaw or head stands where the part has to pass: `part` is its box at its place, and
// `comes` the way it moves there, seen from the clamp; along an axis, else nothing is told. A strap
// bars nothing. Half a millimetre is no clash.
bool bars_the_way(const plan::PlannedClamp& clamp, const work::Shop& shop,
                  const geometry::Box& part, const geometry::Direction& comes);

}  // namespace planner::clamps::bodies
