// A ring of parts that a strap can be drawn round: a mitred frame of any number of sides, the walls
// of a box.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "planner/clamps/axis/pressing_axes.h"
#include "planner/pressure/glue_line.h"

namespace planner::clamps::layout {

// A joint at a corner of the ring, and what of the strap's tension gets to it.
struct StrapCorner {
  axis::FaceRef face;  // the joint's larger one
  double turn = 0;     // of the strap there, radians
  // Share of the tension just past the corner that arrives square to the face. By statics: every
  // side is squeezed lengthwise by the whole tension (cut ring and strap across two sides); where
  // both sides end on the corner each takes half of 2 T sin(turn / 2), which leaves cos(turn / 2)
  // square to a mitre; where one side laps the other's end, that end takes all.
  double share = 0;
  // Of the tension at the buckle: the mean of its two legs here, as friction leaves them once the
  // strap was lifted and tapped; and with the buckle in the middle of the opposite side.
  double tension = 1, opposed_tension = 1;
  bool mitre = false;  // both sides end on the corner
};

struct StrapLoop {
  geometry::Direction normal;       // non-negative; the strap lies across it
  std::vector<work::PartId> parts;  // ascending
  std::vector<StrapCorner> corners;
  std::vector<geometry::Point> outline;  // that the strap goes round, anticlockwise, halfway up
  std::vector<geometry::Direction> rise;  // by corner: how it moves for each mm of height
  double girth_mm = 0;                   // round the outside, where it is widest
  geometry::Extent height;               // along the normal, of all its parts alike
  geometry::Point buckle;     // in the middle of the longest side, at the middle of the height
  geometry::Point opposed;    // in the middle of the side across from it, for every second strap
  geometry::Direction buckle_rise, opposed_rise;
  geometry::Direction along;  // of the strap there
};

// The ring that a stage's glued joints make across `normal`: every part joined to two others by
// faces that stand along the normal, each joint at a corner of its own of the outline, nothing of
// the work in the strap's way. Nothing where there is none, or a face gets nothing from a strap.
std::optional<StrapLoop> find_band_ring(const work::Job& job, std::span<const work::Joint> joints,
                                        std::span<const work::JointId> of_stage,
                                        const pressure::Work& work,
                                        const geometry::Direction& normal);

}  // namespace planner::clamps::layout
