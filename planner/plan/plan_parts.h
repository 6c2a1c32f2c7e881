// Parts and areas as the plan tells them.
#pragma once
#include <array>
#include <span>
#include <vector>

#include "planner/plan/plan.h"

namespace planner::plan {

std::vector<PlanPart> plan_parts(const work::Job& job, std::span<const geometry::Solid> solids);

// The glued area by what meets: long grain to long grain, crossed long grain, end grain on either
// side.
struct GrainShares {
  double long_mm2 = 0, cross_mm2 = 0, end_mm2 = 0;
};
GrainShares grain_shares(std::span<const work::Joint> joints);

}  // namespace planner::plan
