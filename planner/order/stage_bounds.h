// Stages that are too much at a glance.
#pragma once
#include <span>

#include "planner/order/merged_boards.h"

namespace planner::order {

// While a round's joints wait to be held, all of them are spread and joined: some round takes
// longer than that allows, whatever the order. `joints`: those of the stage, ascending.
bool clearly_too_much(const ScheduleProblem& whole, const Boards& boards,
                      std::span<const int> joints, const StageClamps& clamps);

}  // namespace planner::order
