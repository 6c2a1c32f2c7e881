// Where the clamps stand along each edge, as strips of paper to lay on the wood.
#pragma once
#include <string>
#include <vector>

#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::model {

struct StripMark {
  std::vector<int> clamps;      // one number for each edge that the strip serves
  double at_mm = 0;             // of the line of action from the strip's zero end
  planner::plan::PadSize pad;   // nothing thick: the bare jaw
  planner::plan::PadSize caul;  // nothing thick: none
  double caul_at_mm = 0;        // of its middle from the zero end
};

// Where a strip's middle line lies on the work.
struct StripLine {
  planner::work::PartId part = 0;
  geometry::Point from, to;     // its zero end, its other end
  geometry::Direction outward;  // out of the face that it lies on
  double zero_mm = 0;           // of its zero end, in the table of clamps
};

// One for all edges that want the same marks at the same places.
struct EdgeStrip {
  std::vector<std::string> places;  // "no. 1 and 2: front, 3/8 in from its left edge, from its
                                    // bottom end", one for each edge
  std::vector<StripLine> lines;     // one for each edge
  double length_mm = 0;             // of the part's edge
  std::vector<StripMark> marks;     // by their distance
};

// In the order of the lowest clamp on each. Measured on the part that the low jaw bears on, from
// its own end: the rest may not be there yet.
std::vector<EdgeStrip> edge_strips(const planner::plan::Plan& plan,
                                   const planner::plan::Stage& stage,
                                   const words::Wording& wording);

}  // namespace cli::model
