// A picture for every step: what is there in grey, what moves in its wood's colour with an arrow along
// its path, glue, clamps as clamps, letters and names on the parts. One SVG element, 2 to 8 kB.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "cli/words/sentences.h"
#include "planner/plan/plan.h"

namespace cli::pictures {

// REQUIRES: `index` is of one of `steps`, the stage's bench_steps. Each part drawn has one path with
// data-part (its index), each of the step's clamps a group with data-no (its number).
std::string step_picture(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                         const std::vector<words::BenchStep>& steps, std::size_t index,
                         const words::Wording& wording);

// The whole as it stands in use, nothing moving: the sheet's first picture. A joint's two parts are tinted and
// heavily outlined, all others grey.
std::string hero_picture(const planner::plan::Plan& plan, std::optional<planner::work::JointId> told = {});

}  // namespace cli::pictures
