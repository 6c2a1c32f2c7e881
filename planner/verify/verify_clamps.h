// Lines of action, openings, forces, counts and pressure of a plan's clamps, judged.
#pragma once
#include "planner/verify/verify_context.h"

namespace planner::verify {

void verify_clamps(VerifyContext& context);

}  // namespace planner::verify
