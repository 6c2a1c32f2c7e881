#include "planner/stage/add_stages.h"

#include <algorithm>

#include "planner/clamps/bodies/risers.h"

namespace planner::stage {
namespace {

// Clamps come back between stages, so of each row the stage that wants most of it counts.
void add_inventory(plan::Plan& plan, const std::vector<plan::InventoryRow>& rows) {
  for (const plan::InventoryRow& row : rows) {
    const auto known = std::find_if(
        plan.inventory.begin(), plan.inventory.end(), [&](const plan::InventoryRow& other) {
          return other.kind == row.kind && other.opening_mm == row.opening_mm;
        });
    if (known == plan.inventory.end()) {
      plan.inventory.push_back(row);
      continue;
    }
    known->used = std::max(known->used, row.used);
    known->short_by = std::max(known->short_by, row.short_by);
  }
}

// What a strap was set round is held by it.
void tell_straps(plan::Plan& plan, const plan::Stage& stage) {
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    for (const work::JointId id : clamp.joints) {
      work::HeldBy& by = plan.joints[id].held_by;
      by = !clamp.round.empty() && by == work::HeldBy::clamps ? work::HeldBy::strap : by;
    }
  }
}

}  // namespace

void add_stages(plan::Plan& plan, const work::Shop& shop, std::vector<PlannedStage> stages) {
  const auto add = [](auto& all, const auto& more) {
    all.insert(all.end(), more.begin(), more.end());
  };
  for (PlannedStage& planned : stages) {
    add(plan.spare_notes, planned.layout.tried);
    add(plan.spare_notes, planned.layout.spare);
    planned.stage.risers_mm =
        clamps::bodies::risers_mm(planned.stage, plan.parts, shop, plan.units);
    for (const clamps::layout::PressingAxis& axis : planned.layout.rounds) {
      add(plan.pressure, axis.lines);
    }
    add_inventory(plan, planned.layout.inventory);
    tell_straps(plan, planned.stage);
    plan.stages.push_back(std::move(planned.stage));
  }
}

}  // namespace planner::stage
