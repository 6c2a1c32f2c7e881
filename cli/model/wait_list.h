// How long to wait for what, an item a string, in order.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::model {

std::vector<std::string> wait_items(const planner::plan::Plan& plan, const words::TextStyle& style);
// The same times in few lines.
std::vector<std::string> brief_wait_items(const planner::plan::Plan& plan,
                                          const words::TextStyle& style);

// How long after the last is tight the squeeze-out is pared off, s; nothing where it is wiped at once or waits for
// the clamps.
std::optional<double> squeeze_out_s(const planner::plan::Plan& plan);

}  // namespace cli::model
