// What the plan tells of the work itself, before any stage is planned.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/plan/plan.h"
#include "planner/work/square.h"
#include "planner/work/step_seconds.h"

namespace planner::plan {

// A plan without stages and advice: parts, joints, glue and the rings to be checked. `solids` are
// those of the parts.
Plan start_plan(const work::Job& job, const work::Shop& shop, const work::GlueInUse& glue,
                std::span<const geometry::Solid> solids, std::span<const work::Joint> joints,
                std::vector<work::Ring> rings);

std::vector<PlanPart> plan_parts(const work::Job& job, std::span<const geometry::Solid> solids);

// Of each part, in whole grams; a tonne at most, since no crew lifts that.
std::vector<int> weights_g(std::span<const PlanPart> parts);

// Setting a clamp and bringing it snug: by its kind, or as over platens or a form.
work::PaceShare snug_share(const PlannedClamp& clamp, const work::Pace& pace);

// The side of the assembly that lies on the bench once the step is done: each turning over before it, and
// its own, lays the opposite side down.
work::Face bench_face_after(const Stage& stage, const Step& step);

// The glued area by what meets: long grain to long grain, crossed long grain, end grain on either
// side.
struct GrainShares {
  double long_mm2 = 0, cross_mm2 = 0, end_mm2 = 0;
};
GrainShares grain_shares(std::span<const work::Joint> joints);

}  // namespace planner::plan
