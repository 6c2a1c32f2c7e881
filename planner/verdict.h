// Go, tight, or don't open the glue: the whole plan in one word and its reasons.
#pragma once
#include <span>

#include "planner/plan.h"

namespace planner {

// A plan is comfortable with a fifth of the limit to spare (our choice).
inline constexpr double kComfortableShare = 0.2;

// REQUIRES: everything else in the plan is filled in. `impossible` is the reason why no order
// exists, or empty. Of `ways_out` the first three that help are kept, least trouble first.
Verdict judge(const Plan& plan, const Job& job, const std::string& impossible,
              std::vector<WayOut> ways_out);

// "1 min 5 s", for reasons and ways out.
std::string seconds_text(double seconds);

}  // namespace planner
