// A second opinion on when stages begin.
#pragma once
#include "planner/verify/verify_context.h"

namespace planner::verify {

// A stage waits for what it builds on and for the hands; what is in clamps at one time is on the rack.
void verify_starts(VerifyContext& c);

}  // namespace planner::verify
