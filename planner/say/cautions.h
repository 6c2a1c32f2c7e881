// What to be told before the bottle opens: this job's own dangers first, then the usual ones.
#pragma once
#include <string>
#include <vector>

#include "planner/plan/plan.h"

namespace planner::say {

// REQUIRES: parts, joints, glue and stages of the plan are filled in. Common practice throughout;
// the glue's own lines follow its table row.
std::vector<std::string> cautions_for(const plan::Plan& plan, const work::Job& job);

}  // namespace planner::say
