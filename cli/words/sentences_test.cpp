#include "cli/words/sentences.h"

#include <doctest/doctest.h>

#include "cli/model/blocks.h"
#include "cli/text/sample_plan.h"
#include "cli/words/trade_words.h"
#include "planner/tables/clamp.h"

using namespace cli;
using namespace cli::words;
using planner::plan::Plan;
using planner::plan::Stage;
using planner::plan::Step;
using planner::plan::StepKind;

namespace {

const words::Wording kInch{planner::base::Units::inch, false, false};
const words::Wording kUk{planner::base::Units::mm, true, false};

std::string said(const Plan& plan, int n, const words::Wording& wording = kInch) {
  const Stage& stage = plan.stages[0];
  return step_sentence(plan, stage, stage.steps[static_cast<std::size_t>(n - 1)], wording);
}

}  // namespace

TEST_SUITE("cli/sentences") {
  TEST_CASE("a part is moved by a plain verb, into cuts and onto what is plain") {
    Plan plan = text::sample::chest();
    CHECK(said(plan, 2) == "Lower the back into the rabbet of bottom.");
    CHECK(said(plan, 4) == "Push the left toward the back into the rabbets of back and bottom.");
    CHECK(said(plan, 11) == "Lower the top onto front, back, left and right.");
    CHECK(said(plan, 4, kUk) ==
          "Push the left towards the back into the rebates of back and bottom.");
    // Lying on its back, what goes towards the back goes down.
    plan.stages[0].bench_face = {1, true};
    CHECK(said(plan, 4) == "Lower the left into the rabbets of back and bottom.");
    CHECK(said(plan, 11) == "Push the top toward the bottom against front, back, left and right.");
  }

  TEST_CASE("a group that moves goes as one, into as many cuts as it has joints") {
    Plan plan = text::sample::chest();
    Step& step = plan.stages[0].steps[10];
    step.motion = planner::plan::Motion{{0, 1, 2, 3, 4}, {0, 0, 1}};
    CHECK(said(plan, 11) == "Lift all of it into the rabbets of top.");
    step.motion = planner::plan::Motion{{0, 1, 2, 3}, {0, 0, 1}};
    CHECK(said(plan, 11).starts_with("Lift front, back, left and right, as one, into the rabbets"));
  }

  TEST_CASE("a panel left dry goes into its dry groove") {
    Plan plan = text::sample::chest();
    plan.joints[5].kind = planner::work::JointKind::groove;
    plan.joints[5].glued = false;
    CHECK(said(plan, 2) == "Lower the back into the dry groove of bottom.");
  }

  TEST_CASE("a name with a number takes no article") {
    Plan plan = text::sample::chest();
    plan.parts[1].name = "board 2";
    CHECK(said(plan, 2) == "Lower board 2 into the rabbet of bottom.");
    CHECK(said(plan, 3) == "Spread both rabbets of board 2.");
  }

  TEST_CASE("spreading one part is told as one, and tightening too") {
    Stage stage = text::sample::chest().stages[0];
    Step more = stage.steps[0];
    more.n = 2;
    more.start_s = stage.steps[0].end_s;
    more.end_s = more.start_s + 20;
    more.joints = {9};
    stage.steps.insert(stage.steps.begin() + 1, more);
    const auto steps = words::bench_steps(stage);
    CHECK(steps.size() == 15);
    CHECK(number_text(steps[0]) == "1-2");
    CHECK(steps[0].step.joints == std::vector<planner::work::JointId>{4, 5, 6, 7, 9});
    CHECK(steps[0].step.end_s == more.end_s);
    CHECK(number_text(steps[14]) == "15");
    // Another person's spreading stays apart: both brushes are at work.
    stage.steps[1].people = {2};
    CHECK(words::bench_steps(stage).size() == 16);
  }

  TEST_CASE("the order is told by what is put down") {
    const Plan plan = text::sample::chest();
    CHECK(words::order_text(plan, plan.stages[0]) == "bottom, back, left, right, front, then top");
  }
}

TEST_SUITE("cli/trade_words") {
  TEST_CASE("what the plan calls a clamp is read as that clamp, in the US and the UK") {
    words::Wording uk;
    uk.uk_words = true;
    for (const std::string& kind : planner::tables::clamp_ids()) {
      for (const std::string& word :
           {words::clamp_short(kind, words::Wording{}), clamp_text(kind, words::Wording{}), clamp_text(kind, uk)}) {
        CAPTURE(word);
        REQUIRE(planner::tables::find_clamp_kind(word) != nullptr);
        CHECK(planner::tables::find_clamp_kind(word)->id == kind);
      }
    }
  }

  TEST_CASE("every clamp of the table has a name at the bench") {
    for (const planner::tables::ClampKind& kind : planner::tables::clamp_kinds()) {
      INFO(kind.id);
      CHECK(clamp_text(kind.id, kInch).find('_') == std::string::npos);
      CHECK(clamp_text(kind.id, kInch) != kind.id);
      CHECK(words::columns(words::clamp_short(kind.id, words::Wording{})) <= 13);
    }
  }

  TEST_CASE("two pipe clamps are pipe clamps, not clamp (3/4 in)s") {
    CHECK(words::count_text(2, clamp_text("pipe_3_4", kInch)) == "2 pipe clamps (3/4 in)");
    CHECK(words::count_text(2, clamp_text("c_clamp_100", kUk)) == "2 G-cramps");
  }
}

TEST_SUITE("cli/words/blocks") {
  TEST_CASE("pads of one size share a letter, one at each jaw") {
    Plan plan = text::sample::chest();
    plan.stages[0].clamps[9].pad.along_mm = 70;
    const auto blocks = model::blocks_of(plan, kInch);
    REQUIRE(blocks.size() == 2);
    CHECK(blocks[0].letter == "A");
    CHECK(blocks[0].count == 18);
    CHECK(blocks[1].count == 2);
    CHECK(blocks_under(blocks, 1) == "A");
    CHECK(blocks_under(blocks, 10) == "B");
  }

  TEST_CASE("a pad shaped to a sloped face is told with its angle and its thick end") {
    Plan plan = text::sample::chest();
    for (planner::plan::PlannedClamp& clamp : plan.stages[0].clamps) {
      clamp.wedge = {};
    }
    plan.stages[0].clamps[0].wedge[0] = {5, 19.05, 25.4, {1, 0, 0}};
    const auto blocks = model::blocks_of(plan, kInch);
    CHECK(block_shape_text(blocks[0], kInch) ==
          "shaped to the front face (5.0 deg): 1 in thick at its right end");
    // Of a compound angle both slopes are told: tan 11.1 deg = 0.196, 0.6 and 0.8 of it.
    model::Block compound = blocks[0];
    compound.wedge = {11.1, 19.05, 25.4, {0, -0.6, 0.8}};
    CHECK(block_shape_text(compound, kInch) ==
          "shaped to the front face (6.7 deg front-back, 8.9 deg top-bottom): 1 in thick at its front top corner");
    CHECK(blocks[0].count == 1);
    CHECK(blocks[1].count == 1);  // flat, at the clamp's other end
    CHECK(block_shape_text(blocks[1], kInch).empty());
    CHECK(blocks_under(blocks, 1) == "A+B");
  }
  TEST_CASE("a caul under several clamps is cut once for each side") {
    Plan plan = text::sample::chest();
    // Clamps 5 and 6 press the front wall, 7 and 8 the back one: two cauls above, two below.
    for (std::size_t i = 4; i < 8; ++i) {
      plan.stages[0].clamps[i].caul = planner::plan::PadSize{355.6, 19, 19};
      plan.stages[0].clamps[i].pad = {};
      // They stand 3 1/2 in left and right of the middle.
      plan.stages[0].clamps[i].caul_shift_mm = i % 2 == 0 ? 3.5 * 25.4 : -3.5 * 25.4;
    }
    const auto blocks = model::blocks_of(plan, kInch);
    REQUIRE(blocks.size() == 2);
    CHECK(blocks[1].caul);
    CHECK(blocks[1].count == 4);
    CHECK(blocks_under(blocks, 5) == "B");
  }

  TEST_CASE("a bare jaw has no letter") {
    Plan plan = text::sample::chest();
    plan.stages[0].clamps[0].pad = {};
    CHECK(blocks_under(model::blocks_of(plan, kInch), 1) == "-");
  }
}
