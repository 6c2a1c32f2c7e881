// The user's own clamps, judged: places, forces, pressure.
#pragma once
#include "planner/verify/verify_context.h"

namespace planner::verify {

void verify_placed(VerifyContext& context);

}  // namespace planner::verify
