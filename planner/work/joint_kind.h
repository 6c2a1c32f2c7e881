// The trade's joints: what is known of each kind, in one list, and which one a joint is, read off
// its faces alone.
#pragma once
#include <array>
#include <optional>
#include <string_view>

#include "planner/work/joint.h"

namespace planner::work {

// What is so of a kind of joint, as bits.
enum JointTrait : unsigned {
  kHasCut = 1,      // one part holds a cut that the other comes into
  kStepped = 2,     // a cheek, and a shoulder at right angles to it
  kGlueOnBoth = 4,  // both sides are spread, whatever the grain; common practice
  kOtherShape = 8   // it holds by another shape than a groove that a part may lie in
};

// What a joint asks of what presses it (common practice).
enum class Asks {
  hold,  // its largest face pressed all along; but where its own fit presses that, only to come home
  home,  // its shoulders or its floor closed; its own fit does the rest
  driven  // home by the mallet, where it stays
};

// What the trade knows of a kind of joint. UK words are empty where they are the same.
struct JointTrade {
  JointKind kind;
  std::string_view name, uk_name;    // "rabbet joint", "rebate joint"
  std::string_view place, uk_place;  // what a part has of it: "rabbet", "rebate"
  std::string_view mate_place =
      {};  // what the part without the cut has, where not the same: "dowel"
  unsigned traits = 0;
  Asks asks = Asks::hold;

  std::string_view name_in(bool uk_words) const {
    return uk_words && !uk_name.empty() ? uk_name : name;
  }
  std::string_view place_in(bool uk_words) const {
    return uk_words && !uk_place.empty() ? uk_place : place;
  }
  bool has(JointTrait trait) const { return (traits & trait) != 0; }
};
const JointTrade& trade_of(JointKind kind);

struct JointShape {
  JointKind kind = JointKind::other;
  // Which of the joint's two parts (0 or 1) holds the cut: the rabbeted, dadoed or mortised one.
  std::optional<int> host;
};

// REQUIRES: joint.faces is not empty, largest first.
JointShape joint_shape(const Joint& joint, const Job& job);

// The one way that dovetails slide together, where the faces are those: cheeks that lean towards
// one another, and what stops them at home.
std::optional<geometry::Direction> dovetail_run(const Joint& joint);

// Which side gets the glue (docs/method.md "Which side gets it"; common practice): the cut side of
// a stepped joint, so that the plain part stays dry to hold; end grain, mitres, half-laps, fingers
// and dovetails both;
// else the first part's.
std::array<bool, 2> spread_sides(const Joint& joint, const JointShape& shape);

// Length, thickness and width axes of a part in the assembly, after any turn; unit vectors.
std::array<geometry::Direction, 3> part_axes(const Part& part);

}  // namespace planner::work
