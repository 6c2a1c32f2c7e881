// Interchangeable units: swapping the two leaves the problem as it is.
#pragma once
#include <vector>

#include "planner/order/assembly_problem.h"

namespace planner::order {

// For each unit the lowest unit that can stand for it: swapping the two changes neither the
// blocking, the contacts nor the joints. Ways of leaving that no contact of either unit allows are
// not compared where both touch the same neighbours: such a pair is never taken apart that way.
std::vector<int> interchangeable_units(const AssemblyProblem& problem);

}  // namespace planner::order
