#include "planner/make_plan.h"

#include <algorithm>
#include <cmath>

#include "geometry/contact.h"
#include "planner/advice/cautions.h"
#include "planner/advice/notes.h"
#include "planner/advice/verdict.h"
#include "planner/clamps/bodies/risers.h"
#include "planner/placed/placed_clamps.h"
#include "planner/plan/plan_parts.h"
#include "planner/stage/plan_stages.h"
#include "planner/work/job_check.h"
#include "planner/work/movement.h"
#include "planner/work/panel_room.h"
#include "planner/work/square.h"

namespace planner {
namespace {

std::vector<geometry::Solid> make_solids(const work::Job& job) {
  std::vector<geometry::Solid> solids;
  for (const work::Part& part : job.parts) {
    solids.push_back(make_solid(part));
  }
  return solids;
}

std::vector<geometry::Box> bounds_of(std::span<const geometry::Solid> solids) {
  std::vector<geometry::Box> boxes;
  for (const geometry::Solid& solid : solids) {
    boxes.push_back(bounds(solid));
  }
  return boxes;
}

void append(base::Diagnostics& all, const base::Diagnostics& more) {
  all.insert(all.end(), more.begin(), more.end());
}

// The job's glue, and every glue that a joint names for itself.
work::GlueChoice known_glues(const work::Job& job, const work::Shop& shop) {
  work::GlueChoice choice = choose_glue(job, shop);
  for (const work::JointOverride& o : job.overrides) {
    if (o.glue) {
      append(choice.problem, glue_named(*o.glue, o.place, shop).problem);
    }
  }
  return choice;
}

plan::Plan told_so_far(const work::Job& job, const work::Shop& shop, const work::GlueInUse& glue,
                       std::span<const geometry::Solid> solids, std::vector<work::Joint> joints) {
  plan::Plan plan;
  plan.title = job.title;
  plan.units = job.units;
  plan.uk_words = job.uk_words;
  plan.people = std::clamp(shop.people, 1, work::kMostPeople);
  plan.no_shop_file = shop.file.empty();
  plan.temperature_C = shop.temperature_C;
  plan.humidity = shop.humidity;
  plan.parts = plan::plan_parts(job, solids);
  plan.glue = glue_quantity(joints, glue, shop.pace);
  const plan::GrainShares shares = plan::grain_shares(joints);
  plan.long_mm2 = shares.long_mm2;
  plan.cross_mm2 = shares.cross_mm2;
  plan.end_mm2 = shares.end_mm2;
  plan.cross_grain = cross_grain_notes(job, joints, work::kSeasonalChange_percent);
  plan.joints = std::move(joints);
  return plan;
}

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

void add_stage(plan::Plan& plan, const work::Shop& shop, stage::PlannedStage planned) {
  planned.stage.risers_mm = clamps::bodies::risers_mm(planned.stage, plan.parts, shop, plan.units);
  for (clamps::layout::PressingAxis& round : planned.layout.rounds) {
    plan.pressure.insert(plan.pressure.end(), round.lines.begin(), round.lines.end());
  }
  add_inventory(plan, planned.layout.inventory);
  plan.stages.push_back(std::move(planned.stage));
}

}  // namespace

Planned make_plan(const work::Job& job, const work::Shop& shop, const stage::PlanOptions& options) {
  Planned out;
  const std::vector<geometry::Solid> solids = make_solids(job);
  const work::GlueChoice glue = known_glues(job, shop);
  out.diagnostics = glue.problem;
  geometry::Tolerance tolerance;
  tolerance.max_gap_mm = glue.glue ? glue.glue->max_gap_mm : tolerance.max_gap_mm;
  append(out.diagnostics, check_solids(job, solids));
  if (has_errors(out.diagnostics)) {
    return out;
  }
  const auto contacts = find_contacts(solids, tolerance);
  append(out.diagnostics, check_touching(job, solids, contacts));
  if (has_errors(out.diagnostics)) {
    return out;
  }

  plan::Plan plan = told_so_far(job, shop, *glue.glue, solids, classify_joints(job, contacts));
  append(out.diagnostics, placed::check_placed(job, solids, plan.joints, tolerance.max_gap_mm));
  if (has_errors(out.diagnostics)) {
    return out;
  }
  const work::Motions motions = find_motions(solids, plan.joints);
  const auto boxes = bounds_of(solids);
  const auto ring = find_ring(plan.joints, boxes);
  const work::Standing standing(job, solids, plan.joints);
  stage::StageInput input{job,      shop,  *glue.glue, solids, plan.joints, motions,
                          standing, boxes, ring,       {},     {}};
  for (const plan::PlanPart& part : plan.parts) {
    constexpr double kMost_g = 1e6;  // no crew lifts a tonne, nor more
    input.weight_g.push_back(static_cast<int>(std::lround(std::min(part.mass_g, kMost_g))));
  }
  if (ring) {
    input.closing_part = closing_part(*ring, plan.joints, boxes);
    plan.needs_square = true;
    plan.square_normal = ring->normal_axis;
    plan.inside_mm = ring->inside_mm;
    plan.outside_mm = ring->outside_mm;
  }
  stage::PlannedStages planned =
      options.drawing_only ? put_together(input, options) : plan_stages(input, options);
  out.stopped = base::stop_requested(&options.stop);
  if (out.stopped && planned.impossible) {
    return out;
  }
  // In one go, as what can't be put together isn't staged: every unit is a part.
  const std::vector<int>& locked = planned.stages.front().schedule.locked;
  plan.locked.assign(locked.begin(), locked.end());
  if (options.drawing_only) {
    planned.stages.clear();
  }
  if (options.try_glues) {
    out.glue_trials = try_glues(input, planned);
  }
  for (stage::PlannedStage& stage : planned.stages) {
    for (const auto* told : {&stage.layout.tried, &stage.layout.spare}) {
      plan.spare_notes.insert(plan.spare_notes.end(), told->begin(), told->end());
    }
    add_stage(plan, shop, std::move(stage));
  }
  if (!options.drawing_only) {
    plan.placed = placed::try_placed(job, solids, plan.joints, *glue.glue);
  }
  const auto rooms = panel_rooms(job, solids, plan.joints, work::kSeasonalChange_percent);
  plan.notes = advice::notes_for(plan, job, rooms, motions);
  plan.cautions = advice::cautions_for(plan, job);
  out.stopped = base::stop_requested(&options.stop);
  if (out.stopped) {
    // What was not searched long enough says nothing against another glue or for a way out.
    out.glue_trials.clear();
    planned.ways_out.clear();
  }
  plan.verdict = advice::judge(plan, planned.impossible, std::move(planned.ways_out));
  plan.verdict.stopped = out.stopped;
  out.plan = std::move(plan);
  return out;
}

}  // namespace planner
