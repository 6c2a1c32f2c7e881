// What is there to be joined at one time: single units, and groups of them that were glued earlier.
#pragma once
#include <span>
#include <vector>

#include "planner/order/assembly_problem.h"

namespace planner::order {

using Boards = std::vector<base::UnitSet>;  // disjoint, by lowest unit

// Before anything is glued.
Boards single_units(const AssemblyProblem& assembly);

// What is left to join once the boards that make up the group are one.
Boards with_joined(const Boards& boards, const base::UnitSet& group);

// By unit, the index of its board; -1 for none.
std::vector<int> boards_by_unit(const AssemblyProblem& assembly,
                                std::span<const base::UnitSet> boards);

// The joints between different boards, ascending.
std::vector<int> joints_between(const AssemblyProblem& assembly,
                                std::span<const base::UnitSet> boards);

}  // namespace planner::order
