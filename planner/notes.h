// What a careful eye would say about this job, beside the plan itself.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "planner/motion.h"
#include "planner/plan.h"

namespace planner {

// Parts that the finished work holds captive: no straight way out past their neighbours. By id.
std::vector<PartId> captured_parts(const Motions& motions);

// Plain sentences, most important first. REQUIRES: parts, joints and glue of the plan are filled
// in.
std::vector<std::string> notes_for(const Plan& plan, const Job& job, const Motions& motions);

}  // namespace planner
