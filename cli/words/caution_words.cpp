#include "cli/words/caution_words.h"

#include "cli/words/spoken.h"
#include "cli/words/trade_words.h"

namespace cli::words {

using planner::plan::CautionKind;

std::string caution_text(const planner::plan::Plan& plan, const planner::plan::Caution& caution) {
  switch (caution.kind) {
    case CautionKind::isocyanates:
      return "polyurethane holds isocyanates, which sensitize skin and lungs: gloves, fresh air";
    case CautionKind::uncured_epoxy:
      return "uncured epoxy sensitizes skin: gloves, long sleeves, no solvent on skin";
    case CautionKind::formaldehyde:
      return "gives off formaldehyde: fresh air while spreading and while it cures, gloves";
    case CautionKind::hot_pot:
      return "the pot is hot: scalds from water and glue";
    case CautionKind::heavy_part:
      return "two people lift the " + part_name(plan, caution.part.value_or(plan.parts.size())) +
             ": it weighs over 20 kg";
    case CautionKind::heavy_assembly:
      return spoken({plan.units, plan.uk_words, false},
                    "two people move the assembly: over 20 kg with its clamps");
    case CautionKind::iron_stains:
      return "bare iron and wet glue stain wood: paper, tape or an air gap under every bar";
    case CautionKind::sawn_later:
      return "the box is sawn open later: no metal, tape or dowel in the kerf's way, and no sawing "
             "for 24 hours";
    case CautionKind::closed_inside:
      return "finish or tape its inside before the last part closes it; from then on only the "
             "outside diagonals can be measured";
    case CautionKind::label_wins:
      return "follow the glue maker's label and safety sheet; they win over this plan";
    case CautionKind::air_and_eyes:
      return "fresh air; eye protection when tightening and when knocking apart; a mask for dust";
    case CautionKind::fingers:
      return "fingers out of closing joints";
    case CautionKind::falling_clamps:
      return spoken({plan.units, plan.uk_words, false},
                    "a long clamp falls and a sprung one flies: two hands or a helper");
    case CautionKind::drips:
      return "wipe drips off the floor";
    case CautionKind::no_structure:
      return "this plan sizes no structure: for stairs, beams, bunks, play equipment or anything "
             "overhead ask someone licensed and follow the local code";
  }
  return {};
}

bool is_usual(CautionKind kind) {
  switch (kind) {
    case CautionKind::label_wins:
    case CautionKind::air_and_eyes:
    case CautionKind::fingers:
    case CautionKind::falling_clamps:
    case CautionKind::drips:
    case CautionKind::no_structure:
      return true;
    default:
      return false;
  }
}

const char* const kUsualCautions =
    "Label and safety sheet win. Fresh air; guard eyes and fingers; hold what may fall. For what "
    "carries people: local codes, licensed practice.";

}  // namespace cli::words
