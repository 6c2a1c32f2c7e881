// A solved schedule as the steps people follow.
#pragma once
#include "planner/stage/bench_side.h"
#include "planner/stage/stage_problem.h"

namespace planner::stage {

// All that the steps are read off.
struct SolvedStage {
  const order::Schedule& schedule;
  const order::ScheduleProblem& problem;
  const StageWork& work;
  std::span<const work::Joint> joints;
  std::span<const work::Fold> folds;
  std::span<const StageDemand> rounds;
  std::span<const std::vector<int>> clamps_of_round;  // the numbers of each round's clamps
  const BenchSide& bench;
  std::span<const StageRing> rings;  // what the schedule's checks are made of
  int turn_s = 0;                    // of a join that the work is turned over after
};

// The stage's parts, joints, steps, limits and times. Steps are numbered from `first_step`; clamps
// are filled in by the caller. REQUIRES: the schedule solves schedule_problem(work, joints, ...)
// and is not impossible.
plan::Stage stage_from(const SolvedStage& solved, int first_step);

}  // namespace planner::stage
