// Why a step comes when it does: a struct a kind. cli/words/order_words.h words them.
#pragma once
#include <variant>
#include <vector>

#include "planner/work/joint.h"

namespace planner::plan {

// Spread: how long the glue then lies open, of what it may.
struct OpenFor {
  double used_s = 0, limit_s = 0;
};
// Join: what it closes; nothing: it goes in dry before its neighbours close round it.
struct Closes {
  std::vector<work::JointId> joints;
};
// Snug: all that it presses is closed.
struct AllClosed {
  std::vector<work::JointId> joints;
};
// Check: once these parts are on, the inside can't be measured.
struct InsideStillOpen {
  std::vector<work::PartId> next;
};
struct StillMoves {};   // check: all is snug, and the glue still moves
struct EvenlyDrawn {};  // tighten: every round is snug
struct BoardsFlush {};  // cauls
struct LegsAlike {};    // ease: friction leaves a strap's two legs at a corner unlike
struct GlueGrabs {};    // wait
struct FromAbove {};    // turn: the light part comes to the clamped work, and from above
struct NothingToTell {};

using StepReason = std::variant<NothingToTell, OpenFor, Closes, AllClosed, InsideStillOpen,
                                StillMoves, EvenlyDrawn, BoardsFlush, LegsAlike, GlueGrabs, FromAbove>;

}  // namespace planner::plan
