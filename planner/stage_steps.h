// A solved schedule as the steps people follow.
#pragma once
#include "planner/stage_problem.h"

namespace planner {

// The stage's parts, joints, steps, limits and times. Steps are numbered from `first_step`; clamps
// are filled in by the caller, `clamps_of_round[r]` holding the numbers of round r's. REQUIRES:
// schedule solves schedule_problem(work, joints, ...) and is not impossible.
Stage stage_from(const Schedule& schedule, const ScheduleProblem& problem, const StageWork& work,
                 std::span<const Joint> joints, std::span<const RoundDemand> rounds,
                 std::span<const std::vector<int>> clamps_of_round, int first_step);

}  // namespace planner
