// What of the rack is not used, and why; what more of it would bring. A struct a kind.
// cli/words/spare_words.h words them.
#pragma once
#include <string>
#include <variant>
#include <vector>

#include "planner/work/joint.h"

namespace planner::plan {

// Clamps that stay on the rack: where the next ones would help most on an axis.
struct SpareClampsNote {
  struct Place {
    std::string kind;             // id of the clamp table
    geometry::Point from_corner;  // of the work: left, front and bottom
  };
  geometry::Direction axis;
  std::vector<Place> places;
  work::JointId joint = 0;               // the least pressed on the axis
  double before_MPa = 0, after_MPa = 0;  // the least pressure on the axis
  double more_s = 0;                     // to set and tighten them
};

// Straps of the rack round a ring that has too few bars, which don't hold either.
struct StrapShortNote {
  int straps = 0;    // 0: the work is too low for one
  double share = 0;  // of what holds, that the worst corner gets
};

// Held, not fully pressed, whatever more of the rack's kinds there were.
struct NotFullNote {};

// Full pressure was asked for and isn't planned: the clock leaves no comfort for more clamps, or no more
// than hold would press any joint harder.
struct FullLeftOutNote {
  enum class Why { no_time, no_more };
  Why why = Why::no_time;
};

// Corner clamps that stay on the rack.
struct CornerClampsNote {
  enum class Why { one_alone, too_thick, no_room, no_time };
  Why why = Why::no_room;
};

using SpareNote = std::variant<SpareClampsNote, StrapShortNote, NotFullNote, FullLeftOutNote,
                               CornerClampsNote>;

}  // namespace planner::plan
