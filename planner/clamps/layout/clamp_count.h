// How many clamps the trade's two rules of thumb ask for: the first guess, and what a woodworker
// will compare a plan with.
#pragma once

namespace planner::clamps::layout {

// As many as it takes at `each_N`. REQUIRES: forces > 0.
int clamps_for_force(double needed_N, double each_N);

// Longest spacing at which forces that spread at 45 degrees from a pad of `pad_mm` through
// `depth_mm` of wood leave no part of the line uncovered. Published picture; where there is
// contact, not where there is pressure (docs/clamping.md).
double spacing_at_45_degrees_mm(double pad_mm, double depth_mm);

// As many as cover the line at that spacing, the first half a spacing from the end.
int clamps_at_45_degrees(double length_mm, double pad_mm, double depth_mm);

}  // namespace planner::clamps::layout
