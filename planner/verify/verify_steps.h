// Order, motions, people and times of a plan's stages, judged.
#pragma once
#include "planner/verify/verify_context.h"

namespace planner::verify {

void verify_steps(VerifyContext& context);

}  // namespace planner::verify
