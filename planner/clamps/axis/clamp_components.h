// A round's clamps fall apart into components that press nothing in common: the left and the right
// end of a chest, each shelf of a case.
#pragma once
#include <vector>

#include "planner/clamps/axis/axis_clamps.h"
#include "planner/clamps/count/even_spread.h"

namespace planner::clamps::axis {

inline constexpr double kTwoClamps_mm = 100;  // a longer line gets two clamps (our choice)
// Of edges and faces: clamps no farther apart, and three at least on a longer one. Published
// spacings are 6 to 12 in (magazines and makers' sheets; docs/clamping.md); three from 16 in on: ours.
inline constexpr double kWidestApart_mm = 304.8, kThreeClamps_mm = 406.4;
// The fewest that a line of this length gets, whatever they give.
int least_on_line(double length_mm, bool spaced);

// One part of the round that nothing else of it leans on: tracks, and the places they press.
struct ClampComponent {
  std::vector<std::size_t> sites, places;  // of the plan; of the table
  count::PlacementQuestion question;       // about them, in that order
  std::vector<count::TrackSpots> tracks;
  std::vector<std::size_t> track_of_place;  // a place of the question each
};

// By their lowest site. Places that no site presses are left out.
// REQUIRES: the table is of the plan's model.
std::vector<ClampComponent> clamp_components(const AxisClamps& plan, const LineTable& all);

}  // namespace planner::clamps::axis
