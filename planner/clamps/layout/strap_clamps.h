// Straps round a ring of parts, in place of the bars of the axes that hold the same joints.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "planner/clamps/layout/stage_clamps.h"
#include "planner/clamps/layout/strap_loop.h"

namespace planner::clamps::layout {

struct StrapClamps {
  StrapLoop ring;
  axis::AxisClamps plan;          // the ring's joints; a site for each strap over each of them
  std::vector<double> height_mm;  // of the straps' middles, along the normal, ascending
  double tension_N = 0;           // at the buckle
  double strap_mm = 0;            // to pull off the reel: round the ring, and a hand to draw by
  plan::PadSize corner_pad;  // on each side of every corner: along the strap, across it, thickness
  bool notched = false;      // under cauls as tall as the ring, notched to clear the corner's arris
  bool over_tape = false;    // which holds by itself
  double bearing_limit_MPa = 0;  // of the softest part
  // The row of the rack a strap comes from, a strap each; nothing: not on the rack.
  std::vector<std::optional<std::size_t>> owned;
};

// The fewest straps of the rack that hold the joints of held axes which bars don't hold, or for
// which the rack has too few bars; mitres, and what the job wants strapped, get them first of all.
// Those axes are taken out of `stage` then. Nothing where bars do, or straps don't.
std::optional<StrapClamps> band_instead(const ClampProblem& problem, StageAxes& stage);

// Straps of the rack over a ring that was folded up on tape: one, or as many as serve its height.
// Nothing where there is no such ring or strap.
std::optional<StrapClamps> band_over_tape(const ClampProblem& problem, const StageAxes& stage);

// The same with straps that aren't on the rack; `stage` stays as it is. Nothing unless every joint
// of the stage is then held.
std::optional<StrapClamps> band_to_borrow(const ClampProblem& problem, const StageAxes& stage);

// Straps of the rack round a ring that has too few bars, where they don't hold either.
std::optional<plan::StrapShortNote> band_short(const ClampProblem& problem, const StageAxes& stage);

// How many straps of the rack go round the ring that `band` does.
int straps_owned(const ClampProblem& problem, const StrapClamps& band);

// As the plan tells it: a clamp a strap, numbered from `number`.
PressingAxis to_plan(const ClampProblem& problem, const StrapClamps& band, int& number);

}  // namespace planner::clamps::layout
