// Mitres under bars, judged: neither axis alone, nor one much harder than the other.
#pragma once
#include "planner/verify/verify_context.h"

namespace planner::verify {

// At every moment at which something is tight. REQUIRES: verify_means().
void verify_mitres(VerifyContext& context);

}  // namespace planner::verify
