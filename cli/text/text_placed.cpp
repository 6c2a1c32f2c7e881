#include "cli/text/text_placed.h"

#include <fmt/format.h>

#include "cli/model/lists.h"
#include "cli/text/text_clamps.h"
#include "cli/words/placed_words.h"
#include "cli/words/sentences.h"
#include "cli/words/trade_words.h"

namespace cli::text {
namespace {

using planner::plan::PlacedTrial;
using planner::plan::Plan;
using planner::plan::PlannedClamp;

geometry::Point work_corner(const Plan& plan) {
  planner::plan::Stage whole;
  for (planner::work::PartId id = 0; id < plan.parts.size(); ++id) {
    whole.parts.push_back(id);
  }
  return words::stage_corner(plan, whole);
}

void clamp_rows(const Plan& plan, const PlacedTrial& trial, const words::Wording& wording,
                Page& page) {
  const geometry::Point corner = work_corner(plan);
  Table table{{Align::right, Align::left, Align::right, Align::right, Align::right, Align::right,
               Align::left, Align::right},
              {{"", "", "from", "from", "from", "", "", ""},
               {"no", "presses", "left", "front", "bottom", "force", "bears on", "of its limit"}}};
  for (const PlannedClamp& clamp : trial.clamps) {
    const auto place = model::clamp_place(clamp, corner, wording);
    table.rows.push_back(
        {std::to_string(clamp.n), words::axis_word(clamp.axis), place[0], place[1], place[2],
         force_text(clamp.force_N, wording),
         size_text({clamp.pad.along_mm, clamp.pad.across_mm}, wording),
         fmt::format("{:.0f} %", 100 * clamp.bearing_MPa / clamp.bearing_limit_MPa)});
  }
  lay_out(table, 2, page);
}

}  // namespace

void placed_section(const Plan& plan, const words::TextStyle& style, Page& page) {
  const PlacedTrial& trial = *plan.placed;
  const std::string noun = style.wording.uk_words ? "cramp" : "clamp";
  page.inked_line(
      trial.holds ? Ink::green : Ink::red, trial.holds ? "THEY HOLD." : "THEY DON'T HOLD.",
      fmt::format(" Your {}, tried on the whole work.",
                  words::count_text(static_cast<int>(plan.placed->clamps.size()), noun)));
  page.heading(style.wording.uk_words ? "YOUR CRAMPS" : "YOUR CLAMPS");
  clamp_rows(plan, trial, style.wording, page);
  if (!trial.findings.empty()) {
    page.heading("WHERE THEY FALL SHORT");
    for (const std::string& finding : words::finding_texts(plan, trial)) {
      page.item("-", words::as_sentence(words::printable(finding)));
    }
  }
  if (!trial.mends.empty()) {
    page.heading("WHAT FIXES IT, least trouble first");
    int n = 0;
    for (const planner::plan::PlacedMend& mend : trial.mends) {
      page.item(std::to_string(++n) + ".",
                words::as_sentence(
                    words::printable(words::mend_text(plan, mend) + "; " + words::kMendGain)));
    }
  }
  pressure_section(plan, trial.pressure, style, page);
  std::size_t own = 0;
  for (const planner::plan::Stage& stage : plan.stages) {
    own += stage.clamps.size();
  }
  page.blank();
  page.line(fmt::format("The plan's own layout takes {}: see glueup plan.",
                        words::count_text(static_cast<int>(own), noun)));
}

}  // namespace cli::text
