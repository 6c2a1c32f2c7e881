// Pads and cauls to cut, lettered so that a table has room for them.
#pragma once
#include <string>
#include <vector>

#include "cli/words.h"
#include "planner/plan.h"

namespace cli {

struct Block {
  planner::PadSize size;
  bool caul = false;
  std::string letter;       // "A", "B" ...
  int count = 0;            // one at each jaw; a caul reaches over all its clamps
  std::vector<int> clamps;  // their numbers
  bool at_corners = false;  // under a strap, two at every corner
  planner::Wedge wedge;     // of its sloped side; flat: none
  bool one_end = false;     // of its clamps: what lies at the other is shaped otherwise
  std::string face;         // that it is shaped to: "front"
};

// Equal sizes get one letter: pads first, then cauls, in the order of the clamps that use them.
std::vector<Block> blocks_of(const planner::Plan& plan, const Wording& wording);

// What a clamp bears on: "A", "B", "A+B"; "-" for the bare jaw.
std::string blocks_under(const std::vector<Block>& blocks, int clamp);

// "2 x 1 1/4 x 3/4 in": along the line, across it, thick.
std::string block_size_text(const planner::PadSize& size, const Wording& wording);
// "shaped to the front face (5.0 deg): 25 mm thick at its right end"; empty for a flat one.
std::string block_shape_text(const Block& block, const Wording& wording);

}  // namespace cli
