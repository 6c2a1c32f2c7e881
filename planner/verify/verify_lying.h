// How the work lies at each step, judged: nothing comes up from below, no clamped work comes to a loose part.
#pragma once
#include "planner/verify/verify_context.h"

namespace planner::verify {

// Of every straight join and every turning over. REQUIRES: verify_steps() finds nothing wrong.
void verify_lying(VerifyContext& context);

}  // namespace planner::verify
