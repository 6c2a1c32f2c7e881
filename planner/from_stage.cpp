#include "planner/from_stage.h"

#include <algorithm>
#include <array>
#include <utility>

#include "planner/advice/verdict.h"
#include "planner/plan/stage_starts.h"
#include "planner/work/glue_quantity.h"

namespace planner {
namespace {

// What is there already, and the way it lay.
plan::Stage done(const plan::Stage& stage) {
  plan::Stage left;
  left.name = stage.name;
  left.parts = stage.parts;
  left.joints = stage.joints;
  left.bench_face = stage.bench_face;
  return left;
}

// Of each row as many as the stage that wants most of it has on.
void count_again(plan::Plan& plan) {
  for (plan::InventoryRow& row : plan.inventory) {
    row.used = row.short_by = 0;
    for (const plan::Stage& stage : plan.stages) {
      std::array<int, 2> on{};  // the rack's own, others
      for (const plan::PlannedClamp& clamp : stage.clamps) {
        if (clamp.kind == row.kind && clamp.size_mm == row.opening_mm) {
          ++on[clamp.owned || row.owned == 0 ? 0 : 1];
        }
      }
      row.used = std::max(row.used, on[0]);
      row.short_by = std::max(row.short_by, on[1]);
    }
  }
  std::erase_if(plan.inventory,
                [](const plan::InventoryRow& row) { return row.used == 0 && row.short_by == 0; });
}

}  // namespace

void go_on_from(plan::Plan& plan, std::size_t first, const work::Shop& shop) {
  plan.stages_done = first - 1;
  std::vector<work::Joint> left = plan.joints;
  for (std::size_t s = 0; s < plan.stages_done; ++s) {
    for (const work::JointId id : plan.stages[s].joints) {
      left[id].glued = false;
      std::erase_if(plan.pressure, [id](const plan::LinePressure& line) { return line.joint == id; });
    }
    plan.stages[s] = done(plan.stages[s]);
  }
  plan.glue = work::glue_quantity(left, plan.glue.glue, shop.pace);
  count_again(plan);
  set_starts(plan);
  plan::Verdict verdict = advice::judge(plan, {}, std::move(plan.verdict.ways_out));
  verdict.stages_asked = plan.verdict.stages_asked;
  verdict.stopped = plan.verdict.stopped;
  if (verdict.ok) {
    verdict.ways_out.clear();
  }
  plan.verdict = std::move(verdict);
}

}  // namespace planner
