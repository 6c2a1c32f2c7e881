#include "cli/words/note_words.h"

#include <doctest/doctest.h>

#include "cli/words/caution_words.h"
#include "cli/words/order_words.h"
#include "cli/words/verdict_words.h"
#include "cli/words/words.h"

namespace cli::words {
namespace {

// Three boards, the first joined to both others; in millimetres.
planner::plan::Plan three_boards() {
  planner::plan::Plan plan;
  for (const char* name : {"left", "right", "lid"}) {
    plan.parts.emplace_back();
    plan.parts.back().name = name;
  }
  plan.joints.resize(2);
  plan.joints[0].parts = {0, 1};
  plan.joints[1].parts = {0, 2};
  return plan;
}

TEST_SUITE("cli/note_words") {
  const planner::plan::Plan plan = three_boards();

  TEST_CASE("a note names parts and joints, and rounds as every sheet does") {
    CHECK(note_text(plan, planner::plan::PanelGluedNote{2, 4, {0, 1}, 5.52}) ==
          "better leave lid dry, to float: it is solid, held on 4 sides, and glued across the "
          "grain at left - right and left - lid, where " +
              gap_text(5.52, {}) +
              " of movement over the year would split it or open its frame (glue = false)");
    CHECK(note_text(plan, planner::plan::ShouldersByHandNote{{1, 0, 0}, {0, 1}, 2, 600})
              .starts_with("nothing on the rack closes the shoulders of left - right and 1 more "
                           "left-right: 2 clamps that open 600 mm would; "));
    CHECK(note_text(plan, planner::plan::DrivenNote{{0, 1}, false})
              .starts_with("left - right and left - lid: drive the dovetails home"));
    CHECK(note_text(plan, planner::plan::DrivenNote{{1}, true})
              .starts_with("left - lid: press loose dovetails on the tails alone"));
    CHECK(note_text(plan, planner::plan::KeysNote{3, 4}).starts_with("12 keys are let in"));
    CHECK(note_text(plan, planner::plan::RingTrueNote{6, 346.4}).find("the 3 ways from corner to corner") !=
          std::string::npos);
    CHECK(note_text(plan, planner::plan::RingTrueNote{5, 300}).find("the 5 ways from a corner to the") !=
          std::string::npos);
    CHECK(note_text(plan, planner::plan::LeaningSidesNote{10, 29.4987, 5.7251})
              .find("blade 29.5 degrees off square and the miter gauge 5.7,") != std::string::npos);
    CHECK(note_text(plan, planner::plan::BreadboardNote{300, 4.236})
              .find("at the edges " + gap_text(2.118, {}) + " to either side") !=
          std::string::npos);
    CHECK(note_text(plan, planner::plan::HandsNote{3, true, 4, 2, 2, {0, 1}}) ==
          "from step 3 on the joins want 4 hands, you have 2: prop left and right with blocks");
  }

  TEST_CASE("what is locked is told pair by pair") {
    planner::plan::Locked locked{{0, 1, 2}, {}};
    CHECK(reason_text(plan, locked) ==
          "no way to put together left, right, lid: each is locked by the others");
    locked.pairs = {{{0}, {1}, {{1, 0, 0}}}, {{0}, {2}, {}}};
    CHECK(reason_text(plan, locked) ==
          "no way to put together left, right, lid: right leaves left only to the right, lid "
          "can't leave left; so each locks the others in");
  }

  TEST_CASE("a step tells how long its glue lies open, what it closes, what it hides") {
    CHECK(step_reason_text(plan, planner::plan::OpenFor{95, 300}) ==
          "open for 1 min 35 s of 5 min until it is brought together");
    CHECK(step_reason_text(plan, planner::plan::Closes{{0, 1}}) ==
          "closes left - right and left - lid; nothing still to come is shut out");
    CHECK(step_reason_text(plan, planner::plan::Closes{}).starts_with("goes in dry"));
    CHECK(step_reason_text(plan, planner::plan::InsideStillOpen{{2}}) ==
          "once lid is on, the inside can't be measured");
  }

  TEST_CASE("the bench side is told against the side as drawn") {
    CHECK(order_reason_text(plan, planner::plan::BenchSideChosen{{0, 0, -1}, {0, 0, -1}, 0, 0}) ==
          "with the bottom on the bench no part wants a hand until it is pressed");
    CHECK(order_reason_text(plan, planner::plan::BenchSideChosen{{0, 1, 0}, {0, 0, -1}, 1, 3}) ==
          "with the back on the bench one part wants a hand until it is pressed; with the bottom "
          "down 3 would");
  }

  TEST_CASE("a caution names its part") {
    CHECK(caution_text(plan, {planner::plan::CautionKind::heavy_part, 2}) ==
          "two people lift the lid: it weighs over 20 kg");
  }
}

}  // namespace
}  // namespace cli::words
