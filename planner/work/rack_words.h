// Clamps to borrow, in words.
#pragma once
#include <string>

#include "planner/work/job.h"

namespace planner::work {

// "6 heavy F clamps", "2 pipe clamps (3/4 in)"
std::string count_of(int n, std::string noun);

// Rounded up to what one asks for: whole millimetres, quarter inches.
std::string opening_text(double mm, base::Units units);

// "2 heavy F clamps that open 451 mm or more". `kind`: id of the clamp table.
std::string clamps_that_open(const std::string& kind, int count, double opening_mm,
                             base::Units units);

// "25 psi", "0.17 MPa"
std::string pressure_text(double MPa, base::Units units);

}  // namespace planner::work
