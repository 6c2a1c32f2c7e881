// Which joints want pressing along which axes: the rounds that a stage's clamps go on in.
#pragma once
#include <span>
#include <vector>

#include "planner/joint_fit.h"

namespace planner {

struct FaceRef {
  JointId joint = 0;
  std::size_t face = 0;
  friend auto operator<=>(const FaceRef&, const FaceRef&) = default;
};

struct RoundAxis {
  geometry::Direction axis;     // non-negative sense
  std::vector<FaceRef> held;    // larger faces that look along it, as they run and lie
  std::vector<FaceRef> closed;  // smaller ones, likewise
  bool seat() const { return held.empty(); }
};

// Axes along which the glued joints' faces look, those with larger faces to hold first, then those
// with shoulders only; within each x before y before z. A face square to a part's own axis is
// pressed along its normal; an oblique one (a mitre) along each assembly axis that its normal has a
// part in.
std::vector<RoundAxis> round_axes(std::span<const Joint> joints, std::span<const JointId> of_stage,
                                  const Job& job);

}  // namespace planner
