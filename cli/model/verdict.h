// The verdict, one line a matter: time, clamps, glue, order, jaws, square, risk, after.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "cli/words/text_style.h"
#include "planner/plan/plan.h"

namespace cli::model {

// Wordings go from the fullest to the shortest: a sheet takes the first that fits its line.
struct Headline {
  std::string word;  // "GO", "SHORT OF TIME" or "DON'T OPEN THE GLUE"
  std::vector<std::string> rest;
};
Headline headline(const planner::plan::Plan& plan);

// The joint with the least time to spare, of the stages that are left; none where nothing is spread.
std::optional<planner::work::JointId> tightest_joint(const planner::plan::Plan& plan);

struct Matter {
  std::string label;
  std::vector<std::string> wordings;
};
std::vector<Matter> verdict_matters(const planner::plan::Plan& plan, const words::TextStyle& style);

// The ways out, or of a plan that works the choices, as sentences.
std::vector<std::string> way_texts(const planner::plan::Plan& plan);

}  // namespace cli::model
