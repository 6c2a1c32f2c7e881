// Go, tight, or don't open the glue: the whole plan in one word and its reasons.
#pragma once
#include <optional>

#include "planner/plan/plan.h"

namespace planner::advice {

// REQUIRES: everything else in the plan is filled in. `impossible` is the reason why no order
// exists, where none does. Of `ways_out` the first three that help are kept, least trouble first.
plan::Verdict judge(const plan::Plan& plan, std::optional<plan::VerdictReason> impossible,
                    std::vector<plan::WayOut> ways_out);

}  // namespace planner::advice
