#include "cli/words/clamp_sentences.h"

#include <algorithm>

#include <doctest/doctest.h>

#include "cli/text/sample_plan.h"

using namespace cli;
using namespace cli::words;
using planner::plan::Stage;
using planner::plan::Step;
using planner::plan::StepKind;

namespace {

const words::Wording kInch{planner::base::Units::inch, false, false};

// The chest's first clamps, of another kind.
Stage stage_with(const std::string& kind, std::size_t of_them) {
  Stage stage = text::sample::chest().stages[0];
  for (std::size_t i = 0; i < of_them; ++i) {
    stage.clamps[i].kind = kind;
  }
  return stage;
}

Step step_of(const Stage& stage, std::size_t clamps, StepKind kind) {
  Step step;
  step.kind = kind;
  for (std::size_t i = 0; i < clamps; ++i) {
    step.clamps.push_back(stage.clamps[i].n);
  }
  return step;
}

}  // namespace

TEST_SUITE("cli/clamp_sentences") {
  TEST_CASE("wooden jaws are told to stay parallel") {
    const Stage stage = stage_with("hand_screw", 2);
    CHECK(snug_sentence(stage, step_of(stage, 2, StepKind::snug), kInch) ==
          "Snug clamps 1 and 2 front-back: joints closed, no more. Keep the wooden jaws parallel.");
    CHECK(tighten_sentence(text::sample::chest(), stage, step_of(stage, 2, StepKind::tighten), kInch) ==
          "Tighten clamps 1 and 2 in this order to a small even bead. Wooden jaws: the middle screw first, then the end one, jaws parallel.");
  }
  TEST_CASE("springs are put on, and never tightened") {
    const Stage stage = stage_with("spring", 1);
    CHECK(snug_sentence(stage, step_of(stage, 1, StepKind::snug), kInch) ==
          "Put on clamp 1 front-back: joints closed, no more.");
    CHECK(tighten_sentence(text::sample::chest(), stage, step_of(stage, 1, StepKind::tighten), kInch) ==
          "Look along clamp 1 front-back: each still sits square; springs want no tightening.");
    CHECK(tighten_sentence(text::sample::chest(), stage, step_of(stage, 2, StepKind::tighten), kInch) ==
          "Tighten clamp 2 to a small even bead.");
  }
  TEST_CASE(
      "corner clamps go on before the first others, and off again where those want their place") {
    Stage stage = stage_with("f_heavy", 0);
    stage.corner_clamps = {{0, {0, 0, 0}, "corner", 0, true}};
    const auto first = std::find_if(stage.steps.begin(), stage.steps.end(),
                                    [](const Step& s) { return s.kind == StepKind::snug; });
    REQUIRE(first != stage.steps.end());
    CHECK(snug_sentence(stage, *first, kInch)
              .starts_with("Set the corner clamps, square and just snug; they stay on. Snug"));
    stage.corner_clamps[0].stays = false;
    CHECK(snug_sentence(stage, *first, kInch).find("comes off as a clamp goes on there. Snug") !=
          std::string::npos);
    Step later = *first;
    later.n += 1;
    CHECK(snug_sentence(stage, later, kInch).starts_with("Snug"));
  }
  TEST_CASE("shaped pads are taped on first") {
    Stage stage = stage_with("f_heavy", 0);
    stage.clamps[1].wedge[0] = {5, 19, 25, {1, 0, 0}};
    CHECK(snug_sentence(stage, step_of(stage, 2, StepKind::snug), kInch) ==
          "Tape on the shaped pads of no. 2. Snug clamps 1 and 2 front-back: joints closed, no more.");
  }
  TEST_CASE("what would bar another the way goes on after it, and bars that meet are told") {
    Stage stage = stage_with("f_heavy", 0);
    stage.clamps[1].laid_before = 1;
    CHECK(
        snug_sentence(stage, step_of(stage, 1, StepKind::snug), kInch) ==
        "Lay no. 2 in its place, open, before no. 1. Snug clamp 1 front-back: joints closed, no more.");
    stage.clamps[1].laid_before = 0;
    stage.clamps[0].meets = 2;
    stage.clamps[1].meets = 1;
    CHECK(snug_sentence(stage, step_of(stage, 2, StepKind::snug), kInch) ==
          "Snug clamps 1 and 2 front-back: joints closed, no more. The bars of no. 1 and 2 meet: swing "
          "one outward.");
  }
  TEST_CASE("a joint without clamps is closed by hand") {
    CHECK(snug_sentence(stage_with("spring", 0), {}, kInch) == "Press it home by hand.");
  }
}
