// The stages that the user asks for.
#pragma once
#include <string>
#include <vector>

#include "planner/stage/stage_problem.h"

namespace planner::stage {

struct AskedStages {
  std::vector<StageWork> works;
  std::vector<std::string> names;  // of each; the last has none where it is what is left
};

// Those of the job, then what is left, where anything is. Empty where the job asks for none. REQUIRES:
// their names are those of parts and of earlier stages (the job file's reader and check_touching()
// refuse others).
AskedStages asked_stages(const work::Job& job, std::span<const work::Joint> joints);

}  // namespace planner::stage
