#include "planner/say/cautions.h"

#include <algorithm>

namespace planner::say {
namespace {

// Above this two people lift (common practice).
constexpr double kTwoPeopleLift_g = 20'000;

void add_glue_cautions(const plan::Plan& plan, std::vector<std::string>& out) {
  const std::string& family = plan.glue.glue.family;
  const auto is = [&](const char* prefix) { return family.rfind(prefix, 0) == 0; };
  if (is("polyurethane")) {
    out.push_back(
        "polyurethane holds isocyanates, which sensitise skin and lungs: gloves, fresh air");
  }
  if (is("epoxy")) {
    out.push_back("uncured epoxy sensitises skin: gloves, long sleeves, no solvent on skin");
  }
  if (is("uf_") || is("resorcinol")) {
    out.push_back("gives off formaldehyde: fresh air while spreading and while it cures, gloves");
  }
  if (is("hide_hot")) {
    out.push_back("the pot is hot: scalds from water and glue");
  }
}

void add_weight_cautions(const plan::Plan& plan, std::vector<std::string>& out) {
  double whole = 0;
  for (const plan::PlanPart& part : plan.parts) {
    whole += part.mass_g;
    if (part.mass_g > kTwoPeopleLift_g) {
      out.push_back("two people lift the " + part.name + ": it weighs over 20 kg");
    }
  }
  if (whole > kTwoPeopleLift_g) {
    out.push_back("two people move the assembly: over 20 kg before its clamps");
  }
}

}  // namespace

std::vector<std::string> cautions_for(const plan::Plan& plan, const work::Job& job) {
  std::vector<std::string> out;
  add_glue_cautions(plan, out);
  add_weight_cautions(plan, out);
  const bool barrier =
      std::any_of(plan.stages.begin(), plan.stages.end(), [](const plan::Stage& stage) {
        return std::any_of(stage.clamps.begin(), stage.clamps.end(),
                           [](const plan::PlannedClamp& clamp) { return clamp.barrier; });
      });
  if (barrier) {
    out.push_back("bare iron and wet glue stain wood: paper, tape or an air gap under every bar");
  }
  if (!job.saw_later.empty()) {
    out.push_back(
        "the box is sawn open later: no metal, tape or dowel in the kerf's way, and no sawing for "
        "24 hours");
    out.push_back(
        "finish or tape its inside before the last part closes it; from then on only the outside "
        "diagonals can be measured");
  }
  out.push_back("follow the glue maker's label and safety sheet; they win over this plan");
  out.push_back(
      "fresh air; eye protection when tightening and when knocking apart; a mask for dust");
  out.push_back("fingers out of closing joints");
  out.push_back("a long clamp falls and a sprung one flies: two hands or a helper");
  out.push_back("wipe drips off the floor");
  out.push_back(
      "this plan sizes no structure: for stairs, beams, bunks, play equipment or anything "
      "overhead ask someone licensed and follow the local code");
  return out;
}

}  // namespace planner::say
