// The plan's clamps and stages with one glue of the table after another: which of them suit this
// job, and why the others don't.
#pragma once
#include <span>
#include <vector>

#include "planner/order/schedule.h"
#include "planner/work/glue_quantity.h"

namespace planner::stage {

struct PlannedStages;
struct StageInput;

// What speaks against a glue.
struct GlueObstacle {
  enum class Kind {
    open_time,   // used, allowed: s
    total_time,  // used, allowed: s
    too_cold,    // of the shop, the least: C
    too_warm,    // of the shop: C
    gap,         // drawn, bridged: mm
    pressure,    // from the plan's clamps, wanted: MPa
    bottle       // wanted, left: ml
  };
  Kind kind = Kind::open_time;
  work::JointId joint = 0;  // of times, gap and pressure
  double is = 0, limit = 0;
};

struct GlueTrial {
  work::GlueInUse glue;
  work::GlueNeed need;
  bool jobs_own = false;  // the glue that the plan is made with
  bool on_shelf = false;  // a bottle of the shop file
  // With the order worked out anew for this glue's times; the least of the stages'.
  int slack_s = 0, limit_s = 0;  // limit: the one that is tightest
  bool comfortable = false;
  bool one_go = false;                // the plan is in stages, and with this glue needn't be
  std::vector<GlueObstacle> against;  // why it is out, all of it; empty: it suits
};

// The job's own first, then the shop's other bottles, then the rest of the table, each in its
// order.
std::vector<GlueTrial> try_glues(const StageInput& input, const PlannedStages& planned);

// A stage's clock with another glue in every joint that names none of its own. `stage_joints`: the
// ids of problem.joints.
order::ScheduleProblem with_glue(order::ScheduleProblem problem,
                                 std::span<const work::JointId> stage_joints,
                                 std::span<const work::Joint> joints, const work::GlueInUse& glue);

}  // namespace planner::stage
