// Changes that would help a plan, each solved for its job: a struct a kind of change, with what is
// changed and what that brings. cli/words/way_out_words.h words them.
#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "planner/work/joint.h"

namespace planner::plan {

// More people. `slack_s`: to spare with them; nothing: they are there to lift every join.
struct HelpersWay {
  int helpers = 0;
  std::optional<double> slack_s;
};

// A slower glue: from the shop's shelf, or of a family to buy.
struct GlueWay {
  std::string name;
  bool on_shelf = false;
  double slack_s = 0;
  double longer_s = 0;  // than with the job's own, that the clamps stay on
};

// The shop, the wood and the glue cooled to so many degrees, and no lower than is needed.
struct CoolerWay {
  double temperature_C = 0;
  double slack_s = 0;
  double longer_s = 0;  // that the clamps stay on
};

// The shop, the wood and the glue warmed to so much, where they are too cold for the glue.
struct WarmerWay {
  double temperature_C = 0;
};

// A glue that sets in the cold there is: from the shelf, or of a family to buy.
struct ColdGlueWay {
  std::string name;
  bool on_shelf = false;
  double least_C = 0;
};

// Both faces of each joint spread at once, a person a face.
struct DoubleSpreadWay {
  double slack_s = 0;
};

// Spreading in so many percent of its time; `second_pair`: no tool alone is so quick.
struct FasterSpreadWay {
  int percent = 100;
  bool second_pair = false;
};

// Wide faces spread by roller or notched spreader.
struct RollerWay {
  double slack_s = 0;
};

// One stage after another, each glued, clamped and released before the next.
struct StagesWay {
  int stages = 0;
  double slack_s = 0;  // the least of the stages'
};

// A join that alone outlasts the glue, made smaller. `first` and `second` are what it brings
// together.
struct SmallerJoinWay {
  std::vector<work::PartId> first, second;
  double short_by_s = 0;  // in any order
};

// One axis after another, the clamps coming free in between.
struct GoesWay {
  int goes = 0;
  std::vector<work::PartId> first;  // held in the first go
  int clamps = 0;                   // at a time
};

struct ClampsToBorrow {
  std::string kind;  // id of the clamp table
  int count = 0;
  double opening_mm = 0;  // at least
};

// Clamps to borrow, so that `clamps` in all hold every joint, or press it fully.
struct BorrowWay {
  std::vector<ClampsToBorrow> lacking;
  int clamps = 0;
  bool full = false;
  double more_s = 0;  // where full: that they take to set and tighten
};

// Straps to borrow, drawn round the work with those `owned`.
struct StrapsWay {
  int straps = 0;  // in all
  int owned = 0;   // of those, on the rack
  double strap_mm = 0;
  std::optional<int> clamps;  // that they stand in for; nothing: bars don't hold
};

// A vacuum bag with its pump to borrow, for veneers and skins, whose middles no bar reaches.
struct BagWay {
  std::vector<work::JointId> joints;  // that it presses
};

// Hold instead of full pressure, as planned.
struct HoldWay {
  double hold_MPa = 0;
};

using WayOutChange =
    std::variant<HelpersWay, GlueWay, CoolerWay, WarmerWay, ColdGlueWay, DoubleSpreadWay,
                 FasterSpreadWay, RollerWay, StagesWay, SmallerJoinWay, GoesWay, BorrowWay, StrapsWay,
                 BagWay, HoldWay>;

struct WayOut {
  WayOutChange change;
  int trouble = 0;     // orders them, least first
  bool mends = false;  // with it alone, the plan works
};

// The one change that gives most time, of a plan without comfort.
struct HelpsMost {
  WayOut way;
  double slack_s = 0, before_s = 0;  // to spare with it and without; negative: over the time
};

}  // namespace planner::plan
