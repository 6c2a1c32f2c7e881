// A second opinion on a plan, from the job and its geometry alone: none of the solvers is asked.
#pragma once
#include <string>
#include <vector>

#include "planner/plan/plan.h"

namespace planner::verify {

// What is wrong with the plan, a sentence each; empty when it is sound. Checked: areas, joints and
// sums; every join's motion is free and shuts nobody out; times, people and limits; every clamp's
// line of action, opening, force, bearing and number owned; every line's pressure against its
// clamps' force.
std::vector<std::string> verify_plan(const work::Job& job, const work::Shop& shop,
                                     const plan::Plan& plan);

}  // namespace planner::verify
