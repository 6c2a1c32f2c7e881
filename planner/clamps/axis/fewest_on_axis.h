// A held axis: from lines and sites to clamps with their forces.
#pragma once
#include <vector>

#include "planner/clamps/axis/axis_clamps.h"

namespace planner::clamps::axis {

// A count and how it lies on the lines, from half of the spots.
struct RoughCount {
  std::vector<int> on_line;
  int clamps = 0;
  bool works = false;
  bool even = false;  // with one force on all clamps it does, and with ease

  bool better_than(const RoughCount& other) const {
    return works != other.works     ? works
           : clamps != other.clamps ? clamps < other.clamps
                                    : even && !other.even;
  }
};

// How far a clamp's force spreads depends on how many share the line, so the count is found anew
// until it stays; then, as a line pressed in fewer places yields more, whether one less on each
// line carries itself too.
RoughCount rough_count(const AxisClamps& plan, const AxisQuestion& q, const PressNeed& need, KnownSystems& known);

// Sets the plan's model, clamps, bound and what they reach; `on_line` is the count to begin with.
// The search takes every spring as holding; where a caul or a joint opens, the truth is a little
// less: the clamps are tightened, and where they are at their limit the search is asked for more.
void place_clamps(AxisClamps& plan, const AxisQuestion& q, const PressNeed& asked,
                  const std::vector<int>& on_line, KnownSystems& known);

// Share of what is asked that the worst of the lines within reach gets from the plan's clamps, with
// joints and cauls that can open. REQUIRES: need.hand is 1 or
// plan.weak_hand.
double true_share(const AxisClamps& plan, const PressNeed& need);

// Of the highest mean that is planned on a line, what the hardest pressed of the held ones gets from
// clamps that are drawn harder than snug.
double share_of_most(const AxisClamps& plan);

// So much less on every clamp that no line's mean is over the highest, or all are only snug: for clamps
// that don't hold, to be told. REQUIRES: plan.model.
void ease(AxisClamps& plan);

double hardest_N(const std::vector<ChosenClamp>& clamps);  // 0 without any

inline constexpr double kApart_mm = 5;  // between the places that the search looks at

}  // namespace planner::clamps::axis
