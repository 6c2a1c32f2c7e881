// What the user wants of a plan, beside job and shop.
#pragma once
#include "planner/base/stop.h"

namespace planner::stage {

struct PlanOptions {
  bool prove = false;    // search on without the effort limit
  bool explain = false;  // work out why each stage's order, which takes another search
  bool try_glues = false;
  int stages = 0;  // as many as these, or, 0, as are best
  bool drawing_only = false;  // parts, joints, whether they go together; no stage is planned
  base::Stop stop = {};       // once asked, the plan is the best found so far
};

}  // namespace planner::stage
