// Why a plan does not work, and what is likeliest to go wrong, in words.
#pragma once
#include <string>
#include <vector>

#include "planner/plan/plan.h"

namespace cli::words {

// Lower case, no full stop: "the clamps don't hold top - left all along".
std::string reason_text(const planner::plan::Plan& plan,
                        const planner::plan::VerdictReason& reason);
// Of the plan's verdict, in order.
std::vector<std::string> reason_texts(const planner::plan::Plan& plan);
// "boards slip as they are clamped; snug, align, then tighten"
std::string risk_text(const planner::plan::Plan& plan, bool uk_words);

}  // namespace cli::words
