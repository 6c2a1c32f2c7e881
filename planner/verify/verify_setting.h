// Bars clear of one another, and ways to each place, judged.
#pragma once
#include "planner/verify/verify_context.h"

namespace planner::verify {

void verify_setting(VerifyContext& context);

}  // namespace planner::verify
