// Where a strip of paper lies on the work: a small drawing beside the strip.
#pragma once
#include <string>

#include "cli/model/edge_strips.h"

namespace cli::pictures {

// The stage's work seen so that every line of the strip is in front, its parts tinted, each line thick with a ring and
// "0" at its zero end. An SVG element. REQUIRES: the strip has a line.
std::string strip_key(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                      const model::EdgeStrip& strip);

}  // namespace cli::pictures
