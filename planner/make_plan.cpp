#include "planner/make_plan.h"

#include <algorithm>
#include <utility>

#include "geometry/contact.h"
#include "planner/advice/cautions.h"
#include "planner/advice/notes.h"
#include "planner/advice/verdict.h"
#include "planner/placed/placed_check.h"
#include "planner/placed/placed_clamps.h"
#include "planner/plan/plan_parts.h"
#include "planner/plan/stage_starts.h"
#include "planner/stage/add_stages.h"
#include "planner/stage/plan_stages.h"
#include "planner/work/job_check.h"
#include "planner/work/joint_means.h"
#include "planner/work/movement.h"
#include "planner/work/panel_room.h"
#include "planner/work/part_solid.h"
#include "planner/work/square.h"
#include "planner/work/touching.h"

namespace planner {
namespace {

// What was not searched long enough says nothing against another glue or for a way out.
void leave_out_unproven(Planned& out, stage::PlannedStages& planned) {
  out.glue_trials.clear();
  planned.ways_out.clear();
  planned.helps_most.reset();
}

plan::Verdict verdict_of(const plan::Plan& plan, stage::PlannedStages planned, int stages_asked) {
  plan::Verdict verdict = advice::judge(plan, planned.impossible, std::move(planned.ways_out));
  verdict.helps_most = std::move(planned.helps_most);
  verdict.other = planned.other;
  verdict.stages_asked = stages_asked;
  return verdict;
}

// Joints that a bag would press where there is one: veneers and skins.
std::vector<work::JointId> wanting_a_bag(const plan::Plan& plan, const work::Job& job, work::Shop shop) {
  shop.vacuum = true;
  std::vector<work::Joint> joints = plan.joints;
  take_means(joints, job, shop, plan.glue.glue);
  std::vector<work::JointId> wanting;
  for (work::JointId id = 0; id < joints.size(); ++id) {
    if (joints[id].held_by == work::HeldBy::vacuum && plan.joints[id].held_by != work::HeldBy::vacuum) {
      wanting.push_back(id);
    }
  }
  return wanting;
}

// Where veneers aren't held, for want of a bag: the whole planned again with one.
void offer_bag(const work::Job& job, const work::Shop& shop, const stage::PlanOptions& options,
               plan::Plan& plan) {
  const bool not_held = std::ranges::any_of(plan.verdict.reasons, [](const plan::VerdictReason& reason) {
    return std::holds_alternative<plan::NotHeld>(reason);
  });
  if (!not_held || shop.vacuum || shop.unlimited_rack || base::stop_requested(&options.stop)) {
    return;
  }
  std::vector<work::JointId> wanting = wanting_a_bag(plan, job, shop);
  if (wanting.empty()) {
    return;
  }
  work::Shop with = shop;
  with.vacuum = true;
  const Planned again = make_plan(job, with, {.prove = options.prove, .stop = options.stop});
  if (again.plan && again.plan->verdict.ok) {
    plan.verdict.ways_out.insert(plan.verdict.ways_out.begin(),
                                 {plan::BagWay{std::move(wanting)}, 0, true});
  }
}

}  // namespace

Planned make_plan(const work::Job& job, const work::Shop& shop, const stage::PlanOptions& options) {
  Planned out;
  const auto solids = work::make_solids(job.parts);
  const work::GlueChoice glue = choose_glue(job, shop);
  append(out.diagnostics, glue.problem);
  append(out.diagnostics, check_solids(job, solids));
  if (has_errors(out.diagnostics)) {
    return out;
  }
  const geometry::Tolerance tolerance{.max_gap_mm = work::touching_mm(job, glue.glue->max_gap_mm)};
  const auto contacts = find_contacts(solids, tolerance);
  append(out.diagnostics, check_touching(job, solids, contacts));
  if (has_errors(out.diagnostics)) {
    return out;
  }
  auto joints = classify_joints(job, contacts);
  take_means(joints, job, shop, *glue.glue);
  append(out.diagnostics, placed::check_placed(job, solids, joints, tolerance.max_gap_mm));
  if (has_errors(out.diagnostics)) {
    return out;
  }

  const auto boxes = work::bounds_of(solids);
  const std::vector<work::Ring> rings = find_rings(joints, boxes);
  plan::Plan plan = plan::start_plan(job, shop, *glue.glue, solids, joints, rings);
  const work::Motions motions = find_motions(solids, joints);
  const work::Standing standing(job, solids, joints);
  const auto lid = rings.empty() ? std::optional<work::PartId>()
                                 : closing_part(rings.front(), joints, boxes);
  const stage::StageInput input{
      job,  shop, *glue.glue,           solids, joints, motions, standing, boxes,
      rings, lid,  weights_g(plan.parts)};
  stage::PlannedStages planned =
      options.drawing_only ? put_together(input, options) : plan_stages(input, options);
  out.stopped = base::stop_requested(&options.stop);
  if (out.stopped && planned.impossible) {
    return out;
  }
  // In one go, as what can't be put together isn't staged: every unit is a part.
  const std::vector<int>& locked = planned.stages.front().schedule.locked;
  plan.locked.assign(locked.begin(), locked.end());
  if (options.try_glues) {
    out.glue_trials = try_glues(input, planned);
  }
  if (!options.drawing_only) {
    add_stages(plan, shop, std::move(planned.stages));
    set_starts(plan);
    plan.placed = placed::try_placed(job, solids, joints, *glue.glue);
  }
  const auto rooms = panel_rooms(job, solids, joints, work::kSeasonalChange_percent);
  plan.notes = advice::notes_for(plan, job, rooms, motions);
  plan.cautions = advice::cautions_for(plan, job);
  out.stopped = base::stop_requested(&options.stop);
  if (out.stopped) {
    leave_out_unproven(out, planned);
  }
  plan.verdict = verdict_of(plan, std::move(planned), options.stages);
  plan.verdict.stopped = out.stopped;
  offer_bag(job, shop, options, plan);
  out.plan = std::move(plan);
  return out;
}

Planned make_first_plan(const work::Job& job, const work::Shop& shop, stage::PlanOptions options) {
  constexpr int kMostAsked = 4000;  // of searches, whether to end
  int asked = 0;  // of all copies of the options
  options.stop = [&asked, stop = std::move(options.stop)] {
    return ++asked > kMostAsked || base::stop_requested(&stop);
  };
  return make_plan(job, shop, options);
}

}  // namespace planner
