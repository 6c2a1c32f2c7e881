// Where the clamps stand along each edge, as strips of paper to lay on the wood.
#pragma once
#include <string>
#include <vector>

#include "cli/words.h"
#include "planner/plan.h"

namespace cli {

struct StripMark {
  std::vector<int> clamps;  // one number for each edge that the strip serves
  double at_mm = 0;         // of the line of action from the strip's zero end
  planner::PadSize pad;     // nothing thick: the bare jaw
  planner::PadSize caul;    // nothing thick: none
  double caul_at_mm = 0;    // of its middle from the zero end
};

// One for all edges that want the same marks at the same places.
struct EdgeStrip {
  std::vector<std::string> places;  // "no. 1 and 2: front, 3/8 in from its left edge, from its
                                    // bottom end", one for each edge
  double length_mm = 0;             // of the part's edge
  std::vector<StripMark> marks;     // by their distance
};

// In the order of the lowest clamp on each. Measured on the part that the low jaw bears on, from
// its own end: the rest may not be there yet.
std::vector<EdgeStrip> edge_strips(const planner::Plan& plan, const planner::Stage& stage,
                                   const Wording& wording);

// The strip at full size, in pieces that fit A4 and Letter upright; stretches without a mark are
// left out. One SVG each, 180 mm wide, units of a mm.
std::vector<std::string> strip_pieces_svg(const EdgeStrip& strip, const Wording& wording);
// 100 mm and 4 in, to hold a rule against.
std::string check_rule_svg();

}  // namespace cli
