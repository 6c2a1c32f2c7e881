// Straps round a ring of parts, in place of the bars of the axes that hold the same joints.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "planner/band_ring.h"
#include "planner/stage_rounds.h"

namespace planner {

inline constexpr const char* kBandKind = "band";

struct BandRound {
  BandRing ring;
  RoundPlan plan;                 // the ring's joints; a site for each strap over each of them
  std::vector<double> height_mm;  // of the straps' middles, along the normal, ascending
  double tension_N = 0;           // at the buckle
  double strap_mm = 0;            // to pull off the reel: round the ring, and a hand to draw by
  PadSize corner_pad;  // on each side of every corner: along the strap, its width, thickness
  double bearing_limit_MPa = 0;  // of the softest part
  // The row of the rack a strap comes from, a strap each; nothing: not on the rack.
  std::vector<std::optional<std::size_t>> owned;
};

// The fewest straps of the rack that hold the joints of held axes which bars don't hold, or for
// which the rack has too few bars. Those axes are taken out of `stage` then. Nothing where bars do,
// or straps don't.
std::optional<BandRound> band_instead(const ClampProblem& problem, StageRounds& stage);

// The same with straps that aren't on the rack; `stage` stays as it is. Nothing unless every joint
// of the stage is then held.
std::optional<BandRound> band_to_borrow(const ClampProblem& problem, const StageRounds& stage);

// Straps of the rack round a ring that has too few bars, where they don't hold either.
struct BandShort {
  int straps = 0;
  double share = 0;  // of what holds, that the worst corner gets
};
std::optional<BandShort> band_short(const ClampProblem& problem, const StageRounds& stage);
std::string to_text(const BandShort& straps);

// How many straps of the rack go round the ring that `band` does.
int straps_owned(const ClampProblem& problem, const BandRound& band);

// As the plan tells it: a clamp a strap, numbered from `number`.
ClampRound told(const ClampProblem& problem, const BandRound& band, int& number);

}  // namespace planner
