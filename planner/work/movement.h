// How wood changes size across the grain with its moisture, and where glue lines resist it.
#pragma once
#include <span>
#include <vector>

#include "planner/work/joint.h"

namespace planner::work {

// The swing of moisture content over a year that is planned for, where nobody says otherwise.
// Common practice for heated rooms.
inline constexpr double kSeasonalChange_percent = 4;

// Change of a size in mm: size x coefficient x change of moisture content. Wood Handbook (GTR-190)
// eq. 13-2; between 6 and 14 % moisture content.
double movement_mm(double size_mm, double coefficient_per_percent, double change_percent);

// Common practice: less is taken up by the wood and the glue, more splits it.
inline constexpr double kBearable_mm = 2;

// A glue line whose two sides want to move differently.
struct CrossGrainNote {
  JointId joint = 0;
  PartId moving = 0;       // the part that changes more along the line
  double glued_mm = 0;     // length of the line across its grain
  double movement_mm = 0;  // difference of the two sides over that length
  bool warning = false;    // over kBearable_mm: not glued all along, or plywood, or a panel that floats
};

// Joints whose sides differ by more than 0.5 mm over the year: the worst direction of the worst
// face of each, by joint. Boards are taken flatsawn (width tangential, thickness radial), still
// along the grain; sheets move alike both ways in their plane, and one without a published figure
// is taken as still. Only directions across the grain of a solid part count. REQUIRES: every part's
// species is in the wood table.
std::vector<CrossGrainNote> cross_grain_notes(const Job& job, std::span<const Joint> joints,
                                              double change_percent);

}  // namespace planner::work
