// The groups of boards that a person would glue up first where there are very many: rows, layers,
// and neighbouring ones of these.
#pragma once
#include <span>
#include <vector>

#include "planner/order/boards.h"

namespace planner::order {

// Sets of two boards or more, as indices into `boards` (disjoint sets of units). For each straight
// removal the boards that its joints stop form rows, those that the other joints hold form layers;
// where the rows (or layers) follow one another like pages, every run of them is a group too. None
// twice; by number of boards, then lowest. REQUIRES: at most UnitSet::kCapacity boards.
std::vector<base::UnitSet> slabs(const AssemblyProblem& assembly,
                                 std::span<const base::UnitSet> boards);

}  // namespace planner::order
