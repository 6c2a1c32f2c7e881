// Where the user's own clamps fall short, and the smallest changes that mend it: a struct a kind.
// Clamps go by their number in the job file, from 1. cli/words/placed_words.h words them.
#pragma once
#include <variant>
#include <vector>

#include "planner/work/joint.h"

namespace planner::plan {

// No clamp presses along an axis that these joints want pressed.
struct UntouchedAxis {
  geometry::Direction axis;
  std::vector<work::JointId> joints;
};

// The worst of a joint that isn't held, and how much of its length is under what holds.
struct StarvedJoint {
  enum class How { no_pressure, open, weak, starved };
  work::JointId joint = 0;
  geometry::Direction axis;
  How how = How::no_pressure;
  double open_gap_mm = 0;    // where open
  double held_share = 0;     // of what holds, that weak hands give at the worst place
  geometry::Direction end;   // that the worst place is nearer to
  double from_end_mm = 0;    // 0: at it
  double starved_share = 0;  // of the length
};

// A jaw that presses more than the wood bears.
struct DentingClamp {
  int clamp = 0;
  work::PartId low = 0, high = 0;  // under its two jaws
  double bearing_share = 0;        // of what the wood bears
};

// A force beside the middle of a joint: it opens on the other side.
struct OffMiddle {
  work::JointId joint = 0;
  double off_mm = 0;
  geometry::Direction towards;
  bool over_half = false;  // over half of the joint's width opens
};

struct IdleClamp {
  int clamp = 0;
};

using PlacedFinding = std::variant<UntouchedAxis, StarvedJoint, DentingClamp, OffMiddle, IdleClamp>;

struct MoveClamp {
  int clamp = 0;
  double by_mm = 0;
  geometry::Direction towards;
};

struct PutBlocks {
  std::vector<int> clamps;
  double long_mm = 0, thick_mm = 0;
  bool edge_cauls = false;
};

struct DrawHarder {
  struct Draw {
    int clamp = 0;
    double force_N = 0;
    double more_share = 0;  // of the force it has
  };
  std::vector<Draw> draws;
};

// The clamps of each line at equal spacings; an entry a line.
struct SpreadEvenly {
  struct Line {
    double apart_mm = 0, from_end_mm = 0;
  };
  std::vector<Line> lines;
};

// One strip the length of each joint under all jaws.
struct LayStrip {
  double thick_mm = 0;
};

struct SetMore {
  geometry::Direction axis;
  std::vector<geometry::Point> at;
};

// All of them set anew, each at the same force.
struct SetAnew {
  // Lines that are alike; with one clamp each it stands in the middle.
  struct Lines {
    int lines = 0, clamps_each = 0;
    double length_mm = 0, apart_mm = 0, from_end_mm = 0;
  };
  int clamps = 0;
  std::vector<Lines> lines;
  double block_mm = 0;  // length of the blocks under the jaws; 0: none
  bool strips = false;  // as long as the line, in place of blocks
  double thick_mm = 0;  // of blocks or strips
  double force_N = 0;
};

using PlacedChange =
    std::variant<MoveClamp, PutBlocks, DrawHarder, SpreadEvenly, LayStrip, SetMore, SetAnew>;

// Changes that, done together, hold every joint on the axis.
struct PlacedMend {
  geometry::Direction axis;
  std::vector<PlacedChange> changes;
  int trouble = 0;  // orders them, least first
};

}  // namespace planner::plan
