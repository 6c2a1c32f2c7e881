// How the work lies on the bench, and the one way it is looked at: from the front right above.
#pragma once
#include <array>
#include <vector>

#include "cli/model/line_drawing.h"
#include "planner/plan/plan.h"

namespace cli::pictures {

// The bench's own axes, as directions of the work: to the right, away from the maker, up.
struct Stance {
  geometry::Direction right{1, 0, 0}, away{0, 1, 0}, up{0, 0, 1};
};

// With that side of the work on the bench: on its back its top lies farthest away, on its left side
// its top points to the left, as it comes when it is tipped over.
Stance stance_on(planner::work::Face down);
// All ways of laying a single part squarely on the bench, the given one first.
std::vector<Stance> stances_from(const Stance& first);
// The four ways of turning it on the bench, the given one first, the last with its far side to the front.
std::array<Stance, 4> turned_about(const Stance& stance);

// Parallel, from 30 degrees right of the front and 32 above the bench (ours): steep enough to see into
// a box, flat enough that fronts look like fronts, and no two corners of a cube fall together.
model::View bench_view(const Stance& stance);

}  // namespace cli::pictures
