// The steps of a plan as sentences to be followed with glue on one's hands. Shared by all sheets.
#pragma once
#include <string>
#include <vector>

#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::words {

// A step as it is followed: spreading one part goes on over its joints, tightening over its rounds,
// so the plan's steps for them are told as one.
struct BenchStep {
  planner::plan::Step
      step;  // its first number, start and reason; its last end; joints and clamps of all
  int last_n = 0;
};
std::vector<BenchStep> bench_steps(const planner::plan::Stage& stage);
std::string number_text(const BenchStep& step);  // "7", "9-12"

// "Spread the 3 rabbets of the front (for left, right and bottom)." without the number and the
// clock.
std::string step_sentence(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                          const planner::plan::Step& step, const Wording& wording);

// Names of parts, those that an earlier stage glued together as one: "the piece from stage 1, shelf
// 7 and right side".
std::string group_names(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                        const std::vector<planner::work::PartId>& parts);

// Of a plan in several: "2 of 3: left end (post, rail and post)". REQUIRES: it has such a stage.
std::string stage_title(const planner::plan::Plan& plan, std::size_t index);

// What happens between a stage and the next: "Leave it in the clamps 1 h; then take them off for
// stage 2." REQUIRES: there is a next.
std::string between_text(const planner::plan::Plan& plan, std::size_t stage,
                         const Wording& wording);

// Both diagonals of the rectangle as a number to look for: "both 16 5/8 in".
std::string diagonal_text(const std::array<double, 2>& sides_mm, const Wording& wording);
// Of every ring, those alike in one: "of the front and back both 1172 mm". Of an only ring its
// diagonals alone.
std::vector<std::string> outside_diagonals(const planner::plan::Plan& plan, const Wording& wording);

// What happens in which order, parts only: "bottom, back, left, right, front, then top".
std::string order_text(const planner::plan::Plan& plan, const planner::plan::Stage& stage);

// The corner that positions are measured from: the stage's lowest x, y and z.
geometry::Point stage_corner(const planner::plan::Plan& plan, const planner::plan::Stage& stage);

// Who does a step: "1", "1+2"; nothing where one person does everything.
std::string who_text(const planner::plan::Plan& plan, const planner::plan::Step& step);

// Whether boards lie along or square to one another, as a try square can tell.
bool has_square_corners(const planner::plan::Plan& plan, const planner::plan::Stage& stage);

// Of a ring of sides alike that the stage holds all of, where its corners aren't square: how its check is
// made. Null of any other work.
const planner::plan::RingTrueNote* ring_to_be_true(const planner::plan::Plan& plan,
                                                   const planner::plan::Stage& stage);

}  // namespace cli::words
