// All axes of a stage planned together, for one rack.
#pragma once
#include <optional>
#include <vector>

#include "planner/clamps/axis/axis_cache.h"
#include "planner/clamps/axis/axis_clamps.h"
#include "planner/clamps/layout/clamp_layout.h"
#include "planner/clamps/layout/clamp_rack.h"

namespace planner::clamps::layout {

struct StageSetting {
  double thick_mm = 19.05;    // of the stock that pads and strips are cut from: 3/4 in
  double light_share = 1;     // of what holds, that light lines get
  bool off_the_rack = false;  // plan on what is sold, whatever the rack has
};

struct StageAxis {
  axis::AxisClamps plan;
  PlannedKind kind;
  // Of a seated axis that is left to hands: the clamps that would close it.
  int to_hands = 0;
  double to_hands_opening_mm = 0;
};

struct StageAxes {
  pressure::Work work;
  std::vector<StageAxis> rounds;  // held axes first, as round_axes() gives them
  // Of each clamp, round after round: the row of the rack it comes from. All nothing with an
  // unlimited rack. A seated axis has all its clamps or none.
  std::vector<std::optional<std::size_t>> owned;
  int clamps = 0;       // but on those that hands do without
  int missing = 0;      // of them, not on the rack
  bool reached = true;  // with all of them there, every larger face gets what was asked
};

// Each axis is planned on the kinds of the rack in turn, and kept is the one that takes fewest clamps
// of those that the rack has beside those of the axes before; where it has none, again with deeper
// stock under the jaws, and drawn hard. For `goal` light with `setting.light_share` of what holds; for
// `goal` full each held axis is planned again, and kept where the rack has it all.
// `cache`: of this problem, or of one with another rack.
StageAxes plan_clamps(const ClampProblem& problem, plan::Level goal, const StageSetting& setting,
                      axis::AxisCache& cache);

// Clamps of one round that the whole rack lacks, were it there for this round alone.
int missing_alone(const ClampProblem& problem, const StageAxis& round);

// What a clamp of the round asks of the one that takes its place.
ClampWanted wanted_at(const StageAxis& round, const axis::ChosenClamp& clamp);

}  // namespace planner::clamps::layout
