#include "cli/words/clamp_sentences.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "cli/words/trade_words.h"
#include "planner/tables/clamp.h"

namespace cli::words {
namespace {

using planner::plan::Plan;
using planner::plan::PlannedClamp;
using planner::plan::Stage;
using planner::plan::Step;

bool is_in(int n, const std::vector<int>& numbers) {
  return std::find(numbers.begin(), numbers.end(), n) != numbers.end();
}

const PlannedClamp* clamp_of(const Stage& stage, int n) {
  const auto found = std::find_if(stage.clamps.begin(), stage.clamps.end(),
                                  [n](const PlannedClamp& clamp) { return clamp.n == n; });
  return found == stage.clamps.end() ? nullptr : &*found;
}

// "1-4 across, 5-8 down", in the order of their first numbers.
std::string clamps_by_axis(const Stage& stage, const std::vector<int>& numbers) {
  std::vector<std::pair<std::string, std::vector<int>>> by_axis;
  for (const int n : numbers) {
    const PlannedClamp* clamp = clamp_of(stage, n);
    const std::string word = clamp == nullptr ? "" : clamp_way(*clamp);
    if (by_axis.empty() || by_axis.back().first != word) {
      by_axis.push_back({word, {}});
    }
    by_axis.back().second.push_back(n);
  }
  std::vector<std::string> pieces;
  for (const auto& [word, of_axis] : by_axis) {
    pieces.push_back(word.empty() ? numbers_text(of_axis) : numbers_text(of_axis) + " " + word);
  }
  return list_text(pieces);
}

std::string clamps_noun(const std::vector<int>& numbers, const Wording& wording) {
  const std::string noun = wording.uk_words ? "cramp" : "clamp";
  return numbers.size() == 1 ? noun : noun + "s";
}

std::vector<int> of_kind(const Stage& stage, const std::vector<int>& numbers,
                         bool (*is)(const planner::tables::ClampKind&)) {
  std::vector<int> out;
  for (const planner::plan::PlannedClamp& clamp : stage.clamps) {
    const planner::tables::ClampKind* kind = planner::tables::find_clamp_kind(clamp.kind);
    if (kind != nullptr && is(*kind) && is_in(clamp.n, numbers)) {
      out.push_back(clamp.n);
    }
  }
  return out;
}

bool is_spring(const planner::tables::ClampKind& kind) {
  return kind.use == planner::tables::ClampUse::position;
}
bool has_wooden_jaws(const planner::tables::ClampKind& kind) {
  return kind.wooden_jaws;
}

// "Set the corner clamps, square and just snug. ", before the first others.
std::string corners_first(const Stage& stage, const Step& step, const Wording& wording) {
  const auto first = std::find_if(stage.steps.begin(), stage.steps.end(), [](const Step& s) {
    return s.kind == planner::plan::StepKind::snug;
  });
  const bool here =
      !stage.corner_clamps.empty() && first != stage.steps.end() && first->n == step.n;
  const bool stay =
      std::all_of(stage.corner_clamps.begin(), stage.corner_clamps.end(),
                  [](const planner::plan::CornerClamp& corner) { return corner.stays; });
  const std::string clamp = wording.uk_words ? "cramp" : "clamp";
  return !here
             ? ""
             : "Set the corner " + clamp + "s, square and just snug; " +
                   (stay ? "they stay on. " : "each comes off as a " + clamp + " goes on there. ");
}

// "Tape on the shaped pads of no. 1-4. ": those for faces that aren't square to the clamps.
std::string shaped_first(const Stage& stage, const Step& step) {
  std::vector<int> shaped;
  bool cauls = false;
  for (const PlannedClamp& clamp : stage.clamps) {
    if ((clamp.wedge[0].angle_deg > 0 || clamp.wedge[1].angle_deg > 0) &&
        is_in(clamp.n, step.clamps)) {
      shaped.push_back(clamp.n);
      cauls = cauls || clamp.caul;
    }
  }
  return shaped.empty() ? ""
                        : fmt::format("Tape on the shaped {} of no. {}. ", cauls ? "cauls" : "pads",
                                      numbers_text(shaped));
}

// "Lay no. 9 in its place, open, before no. 5. ": those that some set now would bar the way.
std::string laid_first(const Stage& stage, const Step& step) {
  std::map<int, std::vector<int>> laid;  // by the clamp they are laid before
  for (const PlannedClamp& clamp : stage.clamps) {
    if (is_in(clamp.laid_before, step.clamps)) {
      laid[clamp.laid_before].push_back(clamp.n);
    }
  }
  std::string text;
  for (const auto& [before, numbers] : laid) {
    text += fmt::format("Lay no. {} in {}, open, before no. {}. ", numbers_text(numbers),
                        numbers.size() == 1 ? "its place" : "their places", before);
  }
  return text;
}

// " The bars of no. 3 and 9 meet: swing one outward.", where the later of them goes on.
std::string bars_meet(const Stage& stage, const Step& step) {
  std::vector<int> numbers;
  for (const PlannedClamp& clamp : stage.clamps) {
    if (clamp.meets > 0 && is_in(std::max(clamp.n, clamp.meets), step.clamps)) {
      numbers.push_back(clamp.n);
      numbers.push_back(clamp.meets);
    }
  }
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
  return numbers.empty()
             ? ""
             : fmt::format(" The bars of no. {} meet: swing {} outward.", numbers_text(numbers),
                           numbers.size() == 2 ? "one" : "one of each two");
}

// Bars on both axes of a mitre: one drawn by itself would push it along.
bool presses_mitres(const Plan& plan, const Stage& stage, const std::vector<int>& numbers) {
  return std::any_of(numbers.begin(), numbers.end(), [&](int n) {
    const PlannedClamp* clamp = clamp_of(stage, n);
    return clamp != nullptr && clamp->round.empty() &&
           std::any_of(clamp->joints.begin(), clamp->joints.end(), [&](std::size_t id) {
             return plan.joints[id].kind == planner::work::JointKind::mitre;
           });
  });
}

}  // namespace

std::string snug_sentence(const Stage& stage, const Step& step, const Wording& wording) {
  if (step.clamps.empty()) {
    return "Press it home by hand.";
  }
  const std::vector<int> wooden = of_kind(stage, step.clamps, has_wooden_jaws);
  const bool springs = of_kind(stage, step.clamps, is_spring) == step.clamps;
  return fmt::format(
      "{}{}{}{} {} {}: joints closed, no more.{}{}", corners_first(stage, step, wording),
      shaped_first(stage, step), laid_first(stage, step), springs ? "Put on" : "Snug",
      clamps_noun(step.clamps, wording), clamps_by_axis(stage, step.clamps), bars_meet(stage, step),
      wooden.empty() ? "" : " Keep the wooden jaws parallel.");
}

std::string tighten_sentence(const Plan& plan, const Stage& stage, const Step& step,
                             const Wording& wording) {
  const std::vector<int> springs = of_kind(stage, step.clamps, is_spring);
  std::vector<int> screws;
  for (const int n : step.clamps) {
    if (!is_in(n, springs)) {
      screws.push_back(n);
    }
  }
  if (screws.empty()) {
    return fmt::format("Look along {} {}: each still sits square; springs want no tightening.",
                       clamps_noun(springs, wording), clamps_by_axis(stage, springs));
  }
  if (presses_mitres(plan, stage, screws)) {
    return fmt::format("Tighten {} {} in turns, a quarter turn each, to a small even bead.",
                       clamps_noun(screws, wording), numbers_text(screws));
  }
  const bool wooden = !of_kind(stage, step.clamps, has_wooden_jaws).empty();
  // A glue that fills gaps asks for closed joints only; drawn hard, it is pressed out.
  const bool closed = plan.glue.glue.hold_MPa == 0;
  return fmt::format(
      "Tighten {} {} {}{}{}", clamps_noun(screws, wording), numbers_text(screws),
      screws.size() > 1 ? "in this order " : "",
      closed ? "until the joints are just closed, no harder." : "to a small even bead.",
      wooden ? " Wooden jaws: the middle screw first, then the end one, jaws parallel." : "");
}

}  // namespace cli::words
