// What was found out about an axis: trials of one stage come back to the same packings, and what a plan
// is weighed against to the same kinds.
#pragma once
#include <deque>
#include <span>
#include <string>
#include <vector>

#include "geometry/bearing.h"
#include "planner/clamps/axis/fewest_on_axis.h"

namespace planner::clamps::axis {

// REQUIRES: every question is on the same work, and with the same effort.
class AxisCache {
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

  // As much again may be counted and placed: for another plan on the same work.
  void begin() { work_ = 0; }

  // So much was counted and placed that no more is worth waiting for: sites x samples of their lines,
  // the same on every machine. What is still asked is answered all the same.
  bool spent() const { return work_ >= kMostWork; }

  // As geometry has them.
  std::span<const geometry::BearingFace> bearing(std::span<const geometry::Solid> solids,
                                                 const geometry::Direction& axis,
                                                 const geometry::Tolerance& tolerance);

 private:
  static constexpr double kMostWork = 2e7;
  // All that an answer hangs on. Compared by every field, so that none added later is forgotten.
  struct Asked {
    RoundAxis axis;
    Packing packing;
    KindInUse kind;
    std::string glue;  // its family
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
  struct Bearing {
    geometry::Direction axis;
    double max_angle_deg = 0;
    std::vector<geometry::BearingFace> faces;
  };
  std::deque<Bearing> bearing_;  // which stay where they are as it grows
  KnownSystems systems_;
  double work_ = 0;
};

}  // namespace planner::clamps::axis
