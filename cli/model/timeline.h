// When each joint is wet, together and held, against the glue's limits. Shared by the text's and
// the bench sheet's timelines.
#pragma once
#include <vector>

#include "planner/plan/plan.h"

namespace cli::model {

// A joint by its tightest face, seconds from the stage's first glue.
struct JointTime {
  planner::work::JointId joint = 0;
  double wet_s = 0, together_s = 0, held_s = 0;
  double open_limit_s = 0, total_limit_s = 0;  // when it must be together; held
  double used_s = 0, allowed_s = 0;            // of the limit that leaves less
  bool by_open = false;                        // which of the two that is
};

// The stage's joints, tightest first. One that no step joins is left out.
std::vector<JointTime> joint_times(const planner::plan::Stage& stage);

}  // namespace cli::model
