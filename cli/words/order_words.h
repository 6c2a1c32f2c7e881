// Why the order, each step and each clamp are what they are, in words.
#pragma once
#include <string>

#include "planner/plan/plan.h"

namespace cli::words {

// Lower case, no full stop: "no order of this stage has more to spare; ...".
std::string order_reason_text(const planner::plan::Plan& plan,
                              const planner::plan::OrderReason& reason);
// "closes top - left; nothing still to come is shut out"; empty where there is nothing to tell.
std::string step_reason_text(const planner::plan::Plan& plan,
                             const planner::plan::StepReason& reason);
// "holds top - left and top - right"
std::string clamp_reason_text(const planner::plan::Plan& plan,
                              const planner::plan::PlannedClamp& clamp);

}  // namespace cli::words
