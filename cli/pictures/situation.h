// What is on the bench at a step: which parts lie there, which moves and how, which faces are wet,
// which clamps are on.
#pragma once
#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "cli/pictures/stance.h"
#include "cli/words/sentences.h"
#include "planner/plan/plan.h"

namespace cli::pictures {

// Whether one of parts, joints or clamps' numbers is among them.
template <typename Ids, typename Id>
bool holds(const Ids& all, const Id& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

struct Situation {
  Stance stance;
  std::vector<planner::work::PartId> still;   // there already
  std::vector<planner::work::PartId> moving;  // what the step is about: it moves, or gets its glue
  geometry::Direction off;  // where what moves is drawn, from its place; mm
  std::optional<planner::plan::FoldUp> fold;
  double fold_rad = 0;  // so far open where it is drawn
  std::vector<planner::work::JointId> wet;  // spread and not yet closed, or closing now
  // Clamps: those of the step, those that are on already, those on what moves.
  std::vector<const planner::plan::PlannedClamp*> own, earlier, carried;
  bool bare_clamps = false;   // too many for pads and handles
  bool bare_earlier = false;  // too many for the pads of those that are on already
  // What gets its glue may be turned so that the glue is seen: a part by itself as is handy, a group on
  // the bench only round.
  bool lone = false, turns_round = false;
};

// REQUIRES: `index` is of one of the stage's bench_steps.
Situation situation_at(const planner::plan::Plan& plan, const planner::plan::Stage& stage,
                       const std::vector<words::BenchStep>& steps, std::size_t index);

// A letter for every part in the order they come: "A" ... "Z", "AA" ...; by part.
std::map<planner::work::PartId, std::string> part_letters(const planner::plan::Plan& plan);

// How far parts in their places reach along a direction.
geometry::Extent reach_along(const planner::plan::Plan& plan, const std::vector<planner::work::PartId>& parts,
                             const geometry::Direction& way);
// Where the middle of the moving parts' leading side comes to rest. REQUIRES: they are drawn off.
geometry::Point seat_of(const planner::plan::Plan& plan, const Situation& at);

// The box round parts in their places.
geometry::Box box_of(const planner::plan::Plan& plan, const std::vector<planner::work::PartId>& parts);

}  // namespace cli::pictures
