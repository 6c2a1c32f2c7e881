#include "planner/advice/cautions.h"

#include <algorithm>

#include "planner/tables/clamp.h"

namespace planner::advice {
namespace {

using plan::CautionKind;

// What hangs on the stage's work once all its clamps are on.
double clamps_kg(const plan::Stage& stage) {
  double sum = 0;
  for (const plan::PlannedClamp& clamp : stage.clamps) {
    sum += tables::mass_kg(*tables::find_clamp_kind(clamp.kind), clamp.size_mm);
  }
  return sum;
}

void add_glue_cautions(const plan::Plan& plan, std::vector<plan::Caution>& out) {
  const std::string& family = plan.glue.glue.family;
  const auto is = [&](const char* prefix) { return family.rfind(prefix, 0) == 0; };
  if (is("polyurethane")) {
    out.push_back({CautionKind::isocyanates});
  }
  if (is("epoxy")) {
    out.push_back({CautionKind::uncured_epoxy});
  }
  if (is("uf_") || is("resorcinol")) {
    out.push_back({CautionKind::formaldehyde});
  }
  if (is("hide_hot")) {
    out.push_back({CautionKind::hot_pot});
  }
}

void add_weight_cautions(const plan::Plan& plan, std::vector<plan::Caution>& out) {
  double whole_kg = 0;
  for (work::PartId part = 0; part < plan.parts.size(); ++part) {
    whole_kg += plan.parts[part].mass_g / 1000;
    if (plan.parts[part].mass_g / 1000 > plan::kOneLifts_kg) {
      out.push_back({CautionKind::heavy_part, part});
    }
  }
  if (!plan.stages.empty()) {
    whole_kg += clamps_kg(plan.stages.back());
  }
  const bool told = std::ranges::any_of(plan.stages, [](const plan::Stage& stage) {
    return std::ranges::any_of(stage.steps, &plan::Step::wants_two);
  });
  if (whole_kg > plan::kOneLifts_kg && !told) {
    out.push_back({CautionKind::heavy_assembly});
  }
}

}  // namespace

std::vector<plan::Caution> cautions_for(const plan::Plan& plan, const work::Job& job) {
  std::vector<plan::Caution> out;
  add_glue_cautions(plan, out);
  add_weight_cautions(plan, out);
  const bool barrier =
      std::any_of(plan.stages.begin(), plan.stages.end(), [](const plan::Stage& stage) {
        return std::any_of(stage.clamps.begin(), stage.clamps.end(),
                           [](const plan::PlannedClamp& clamp) { return clamp.barrier; });
      });
  if (barrier) {
    out.push_back({CautionKind::iron_stains});
  }
  if (!job.saw_later.empty()) {
    out.push_back({CautionKind::sawn_later});
    out.push_back({CautionKind::closed_inside});
  }
  for (const CautionKind usual :
       {CautionKind::label_wins, CautionKind::air_and_eyes, CautionKind::fingers,
        CautionKind::falling_clamps, CautionKind::drips, CautionKind::no_structure}) {
    out.push_back({usual});
  }
  return out;
}

}  // namespace planner::advice
