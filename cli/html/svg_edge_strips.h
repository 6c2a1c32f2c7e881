// Strips of clamp marks at full size, as SVG.
#pragma once
#include <string>
#include <vector>

#include "cli/model/edge_strips.h"
#include "cli/words/words.h"

namespace cli::html {

// The strip at full size, in pieces that fit A4 and Letter upright; stretches without a mark are
// left out. One SVG each, 180 mm wide, units of a mm.
std::vector<std::string> strip_pieces_svg(const model::EdgeStrip& strip,
                                          const words::Wording& wording);
// 100 mm and 4 in, to hold a rule against.
std::string check_rule_svg();

}  // namespace cli::html
