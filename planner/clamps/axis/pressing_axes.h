// Which joints want pressing along which axes: the rounds that a stage's clamps go on in.
#pragma once
#include <cmath>
#include <span>
#include <vector>

#include "planner/work/joint_fit.h"

namespace planner::clamps::axis {

// A shaped pad slides down a steeper face: friction of dry wood on wood, 0.3 (low end of GTR-190 p.
// 4-17).
inline constexpr double kSteepest = 0.3;

// Within a degree of one another, in either sense.
inline bool same_axis(const geometry::Direction& a, const geometry::Direction& b) {
  constexpr double kCosine = 0.9998;
  return std::abs(dot(a, b)) > kCosine;
}

struct FaceRef {
  work::JointId joint = 0;
  std::size_t face = 0;
  friend auto operator<=>(const FaceRef&, const FaceRef&) = default;
};

struct RoundAxis {
  geometry::Direction axis;     // non-negative sense
  std::vector<FaceRef> held;    // larger faces that look along it, as they run and lie
  std::vector<FaceRef> closed;  // smaller ones, likewise
  bool home = false;            // of joints that only come home: their shoulders and floors
  bool driven = true;           // a mallet would bring them home, were there no clamps
  bool seat() const { return held.empty(); }
  bool hands_do() const { return seat() && driven; }  // where there are no clamps
  friend bool operator==(const RoundAxis&, const RoundAxis&) = default;
};

// Axes along which the glued joints' faces look, those with larger faces to hold first, then those of
// joints that ask no more than to come home, which share no round with others, then those with
// shoulders only; within each x before y before z. A face square to a part's own axis is
// pressed along its normal; an oblique one (a mitre) along each assembly axis that its normal has a
// part in. Faces that lean to either side of an assembly axis, no more than a shaped pad stays put
// on, are pressed along it.
std::vector<RoundAxis> round_axes(std::span<const work::Joint> joints,
                                  std::span<const work::JointId> of_stage, const work::Job& job);

}  // namespace planner::clamps::axis
