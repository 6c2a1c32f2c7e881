// The trade's name for a joint, read off its faces alone.
#pragma once
#include <array>
#include <optional>

#include "planner/work/joint.h"

namespace planner::work {

struct JointShape {
  JointKind kind = JointKind::other;
  // Which of the joint's two parts (0 or 1) holds the cut: the rabbeted, dadoed or mortised one.
  std::optional<int> host;
};

// REQUIRES: joint.faces is not empty, largest first.
JointShape joint_shape(const Joint& joint, const Job& job);

// Which side gets the glue (docs/method.md "Which side gets it"; common practice): the cut side of
// a stepped joint, so that the plain part stays dry to hold; end grain, mitres and half-laps both;
// else the first part's.
std::array<bool, 2> spread_sides(const Joint& joint, const JointShape& shape);

// Length, thickness and width axes of a part in the assembly, after any turn; unit vectors.
std::array<geometry::Direction, 3> part_axes(const Part& part);

}  // namespace planner::work
