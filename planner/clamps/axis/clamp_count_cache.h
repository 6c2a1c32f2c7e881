// What was found out about an axis: trials of one stage come back to the same packings.
#pragma once
#include <deque>
#include <vector>

#include "planner/clamps/axis/fewest_on_axis.h"

namespace planner::clamps::axis {

// REQUIRES: every question is on the same work and glue, and with the same effort.
class ClampCountCache {
 public:
  // Lines and sites with the jaws packed so, where they are known; nullptr where not.
  const AxisClamps* laid_out(const AxisQuestion& q, const Packing& packing) const;
  void keep(const AxisClamps& laid_out, const AxisQuestion& q);

  // Made anew only where none is known.
  RoughCount of(const AxisClamps& plan, const AxisQuestion& q, const PressNeed& need);

  // The plan with clamps placed on it (place_clamps), made anew only where none is known. Plans are
  // large: a few are kept, and the oldest goes.
  AxisClamps placed(AxisClamps plan, const AxisQuestion& q, const PressNeed& need,
                    const std::vector<int>& on_line);

 private:
  // All that an answer hangs on. Compared by every field, so that none added later is forgotten.
  struct Asked {
    RoundAxis axis;
    Packing packing;
    KindInUse kind;
    PressNeed need;  // empty: of lines and sites alone
    friend bool operator==(const Asked&, const Asked&) = default;
  };
  template <typename Answer>
  struct Made {
    Asked asked;
    Answer answer;
  };
  template <typename Table>
  static auto* find(Table& made, const Asked& asked);

  std::vector<Made<AxisClamps>> laid_out_;
  std::vector<Made<RoughCount>> counts_;
  std::deque<Made<AxisClamps>> placed_;
};

}  // namespace planner::clamps::axis
