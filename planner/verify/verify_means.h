// By what each joint is held, and the pins, screws, weights and bag that do it, judged.
#pragma once
#include "planner/verify/verify_context.h"

namespace planner::verify {

// Takes what the plan tells of each joint's means over into the context, once it is found lawful.
void verify_means(VerifyContext& context);

// Fastenings and loadings, and the steps that do them. REQUIRES: verify_means().
void verify_clampless(VerifyContext& context);

}  // namespace planner::verify
