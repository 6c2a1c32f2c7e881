#include "cli/model/brief_lists.h"

#include <algorithm>

#include <fmt/format.h>

#include "cli/model/lists.h"
#include "cli/words/caution_words.h"
#include "cli/words/note_words.h"
#include "cli/words/sentences.h"
#include "cli/words/spare_words.h"
#include "cli/words/spoken.h"

namespace cli::model {
namespace {

using planner::plan::CautionKind;
using planner::plan::Note;
using planner::plan::Plan;

// Told already: the bars among what to fetch, the end grain where it is sized, the values of a class among
// the details, a ring's corners where they are checked.
bool told_elsewhere(const Plan& plan, const Note& note) {
  const bool ring_checked =
      std::holds_alternative<planner::plan::RingTrueNote>(note) &&
      std::ranges::any_of(plan.stages, [&plan](const planner::plan::Stage& stage) {
        return words::ring_to_be_true(plan, stage) != nullptr &&
               std::ranges::any_of(stage.steps, [](const planner::plan::Step& step) {
                 return step.check == planner::plan::Check::square;
               });
      });
  return ring_checked || std::holds_alternative<planner::plan::ClassValuesNote>(note) ||
         (std::holds_alternative<planner::plan::EndGrainNote>(note) && plan.glue.size_coat_g > 0);
}

std::vector<std::string> own_watch_out_items(const Plan& plan, const words::TextStyle& style) {
  std::vector<std::string> own;
  for (const planner::plan::Caution& caution : plan.cautions) {
    if (!words::is_usual(caution.kind) && caution.kind != CautionKind::iron_stains) {
      own.push_back(words::as_sentence(words::caution_text(plan, caution)));
    }
  }
  for (const Note& note : plan.notes) {
    if (!told_elsewhere(plan, note)) {
      own.push_back(words::as_sentence(words::note_text(plan, note)));
    }
  }
  const std::vector<std::string> across = cross_grain_items(plan, style);
  own.insert(own.end(), across.begin(), across.end());
  for (const planner::plan::SpareNote& note : plan.spare_notes) {
    own.push_back(words::as_sentence(words::printable(words::spare_text(plan, note))));
  }
  return own;
}

}  // namespace

std::vector<std::string> brief_dry_fit_items(const Plan& plan, const words::TextStyle& style) {
  std::string measured;
  if (plan.needs_square) {
    const std::string outside = words::list_text(words::outside_diagonals(plan, style.wording));
    measured = plan.rings.size() > 1
                   ? fmt::format("outside diagonals {}; ", outside)
                   : fmt::format("diagonals inside {}, outside {}; ",
                                 diagonal_text(plan.inside_mm, style.wording), outside);
  }
  if (plan.bend) {
    return {words::spoken(style.wording, "Bent dry on the form, snug clamps close every ply; none cracks.")};
  }
  return {words::as_sentence(
      measured + "each joint closes by hand or with one light turn of a " +
      (style.wording.uk_words ? "cramp" : "clamp"))};
}

BriefWatchOut brief_watch_out(const Plan& plan, const words::TextStyle& style) {
  constexpr std::size_t kMost = 5;
  BriefWatchOut out{own_watch_out_items(plan, style), 0};
  if (out.items.size() > kMost) {
    out.more = out.items.size() - kMost + 1;
    out.items.resize(kMost - 1);
  }
  out.items.push_back(words::kUsualCautions);
  return out;
}

}  // namespace cli::model
