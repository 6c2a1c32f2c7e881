// Clamps spread evenly along their tracks, as people set them: the first answer to how many, which
// the search for fewer has to beat.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/clamps/count/fewest_clamps.h"

namespace planner::clamps::count {

struct TrackSpots {
  std::vector<std::size_t> spots;  // of the question, in order along the track
  std::vector<double> x_mm;        // a spot each
  double length_mm = 0;
  int at_least = 1;
};

// On each track n clamps at equal distances, the ends in from the track's ends by what presses the
// worst place most; n grows on the track of the worst pressed place until all are pressed enough,
// then shrinks where it can. Nothing where `most` clamps in all don't do. `track_of_place` tells
// for each place of the table which track's line it lies on.
std::optional<Placement> even_spread(const PlacementQuestion& question,
                                     std::span<const TrackSpots> tracks,
                                     std::span<const std::size_t> track_of_place, int most);

// The same number of clamps moved along their tracks, one or a mirrored pair at a time, while that
// raises the worst pressed place at equal forces. `placement` where that doesn't help, or where
// what it leads to doesn't press enough.
Placement evened(const PlacementQuestion& question, std::span<const TrackSpots> tracks,
                 const Placement& placement);

// Share of its need that the worst place gets with the same force on every chosen spot, as much as
// the weakest of them may take; and which place that is.
struct WorstPlace {
  double share = 0;
  std::size_t place = 0;
};
WorstPlace worst_at_equal_force(const PlacementQuestion& question,
                                std::span<const std::size_t> spots);

}  // namespace planner::clamps::count
