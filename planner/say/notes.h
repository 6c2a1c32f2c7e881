// What a careful eye would say about this job, beside the plan itself.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "planner/plan/plan.h"
#include "planner/work/motion.h"

namespace planner::say {

// Parts that the finished work holds captive: no straight way out past their neighbours. By id.
std::vector<work::PartId> captured_parts(const work::Motions& motions);

// Plain sentences, most important first. REQUIRES: parts, joints and glue of the plan are filled
// in.
std::vector<std::string> notes_for(const plan::Plan& plan, const work::Job& job,
                                   const work::Motions& motions);

}  // namespace planner::say
