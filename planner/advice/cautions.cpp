#include "planner/advice/cautions.h"

#include <algorithm>

namespace planner::advice {
namespace {

using plan::CautionKind;

// Above this two people lift (common practice).
constexpr double kTwoPeopleLift_g = 20'000;

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
  double whole = 0;
  for (work::PartId part = 0; part < plan.parts.size(); ++part) {
    whole += plan.parts[part].mass_g;
    if (plan.parts[part].mass_g > kTwoPeopleLift_g) {
      out.push_back({CautionKind::heavy_part, part});
    }
  }
  if (whole > kTwoPeopleLift_g) {
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
