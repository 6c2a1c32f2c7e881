// How a saw is set for the ends of sides that lean.
#pragma once

namespace planner::work {

// Off a square cut, degrees; the gauge turns the same way for either lean.
struct CompoundMitre {
  double blade_deg = 0, gauge_deg = 0;
};

// Of `sides` alike round a middle that lean by `slope_deg` off upright. Textbook solid geometry: two sides meet in an
// upright plane through the middle, whose normal, told along a side's length, thickness and slant, is cos a, sin a cos s,
// sin a sin s with a = 180 / sides; so sin blade = sin a cos s, tan gauge = tan a sin s.
// REQUIRES: three sides at least; a slope between -90 and 90 degrees.
CompoundMitre compound_mitre(int sides, double slope_deg);

}  // namespace planner::work
