// Stages that are too much at a glance, and too few.
#pragma once
#include <span>
#include <utility>
#include <vector>

#include "planner/order/merged_boards.h"

namespace planner::order {

// While a round's joints wait to be held, all of them are spread and joined: some round takes
// longer than that allows, whatever the order. `joints`: those of the stage, ascending.
bool clearly_too_much(const ScheduleProblem& whole, const Boards& boards,
                      std::span<const int> joints, const StageClamps& clamps);

// How many stages are needed at least. A round's joints are spread in some stage and joined in it, and
// each stage that has any of them snugs and tightens too before they are held: what is to be spread and
// joined, over what a stage leaves for it.
class FewestStages {
 public:
  // Asks for the clamps of all joints and of each alone. `problem` must outlive it.
  explicit FewestStages(const StageProblem& problem);

  // From these boards on; 1 at least, more than any plan has where a joint alone is too much.
  int from(const Boards& boards) const;

 private:
  struct Round {
    std::vector<int> joints;
    std::vector<std::pair<int, int>> dry;  // units that touch without any of them
    int total_s = 0;     // longest of its joints
    int pressing_s = 0;  // least, of a stage that has any of them
  };
  // Joins that follow the spreading of what is left of the round's joints, over all stages.
  int joins(const Boards& boards, const Round& round, std::span<const int> left) const;

  const StageProblem& problem_;
  std::vector<Round> rounds_;
};

}  // namespace planner::order
