// The solids that boards with their cuts make.
#pragma once
#include <span>
#include <vector>

#include "geometry/solid.h"
#include "planner/work/part.h"

namespace planner::work {

// The part as cut and turned; empty where its cuts leave nothing. REQUIRES: check_parts found no
// error.
geometry::Solid make_solid(const Part& part);

// The same of all, indices alike.
std::vector<geometry::Solid> make_solids(std::span<const Part> parts);

// The box round each, indices alike.
std::vector<geometry::Box> bounds_of(std::span<const geometry::Solid> solids);

}  // namespace planner::work
