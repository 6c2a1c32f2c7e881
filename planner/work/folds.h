// Mitred corners as hinges: boards laid open end to end, taped across the outside, and folded up.
#pragma once
#include <span>
#include <vector>

#include "geometry/folding.h"
#include "planner/work/joint.h"

namespace planner::work {

struct Fold {
  geometry::Hinge hinge;  // along x, y or z; positive angles open the corner
  double angle_deg = 0;   // from closed to laid open
  PartId turns = 0, stays = 0;
  geometry::Direction opens;  // unit; how `turns` first moves where the two meet
  geometry::Direction off;    // unit; the way it is drawn off once it lies open
  bool usual = false;         // a corner taller than it is wide, as boxes are folded up
};

// Two for each joint that is one mitred face, about its outer corner: [2k] turns parts[1] of the
// joint, [2k + 1] parts[0]. By joint. Corners that lie along no axis, or whose outsides don't meet
// in a line, have none.
std::vector<Fold> find_folds(std::span<const geometry::Solid> solids,
                             std::span<const Joint> joints);

// How far a wet face is wiped as the joint folds, mm: nothing where it opens like a book; where it
// slides across the hinge, the longest arc that a point of it runs inside the rectangle round the
// face. Looked at on a grid of its points, to a few tenths of a millimetre.
double fold_wipe_mm(const Joint& joint, const Fold& fold);

}  // namespace planner::work
