// Go, tight, or don't open the glue: the whole plan in one word and its reasons.
#pragma once
#include <span>

#include "planner/plan/plan.h"

namespace planner::say {

// REQUIRES: everything else in the plan is filled in. `impossible` is the reason why no order
// exists, or empty. Of `ways_out` the first three that help are kept, least trouble first.
plan::Verdict judge(const plan::Plan& plan, const work::Job& job, const std::string& impossible,
                    std::vector<plan::WayOut> ways_out);

}  // namespace planner::say
