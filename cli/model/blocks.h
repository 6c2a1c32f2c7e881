// Pads and cauls to cut, lettered so that a table has room for them.
#pragma once
#include <string>
#include <vector>

#include "cli/words/words.h"
#include "planner/plan/plan.h"

namespace cli::model {

struct Block {
  planner::plan::PadSize size;
  bool caul = false;
  std::string letter;          // "A", "B" ...
  int count = 0;               // in use at one time: one at each jaw; a caul reaches over all its clamps
  std::vector<int> in_stage;   // of them, by stage
  std::vector<int> clamps;     // their numbers
  bool at_corners = false;     // under a strap, two at every corner
  planner::plan::Wedge wedge;  // of its sloped side; flat: none
  bool one_end = false;        // of its clamps: what lies at the other is shaped otherwise
  std::string face;            // that it is shaped to: "front"
};

// Equal sizes get one letter: pads first, then cauls, in the order of the clamps that use them.
std::vector<Block> blocks_of(const planner::plan::Plan& plan, const words::Wording& wording);

// What a clamp bears on: "A", "B", "A+B"; "-" for the bare jaw.
std::string blocks_under(const std::vector<Block>& blocks, int clamp);

// "2 x 1 1/4 x 3/4 in": along the line, across it, thick.
std::string block_size_text(const planner::plan::PadSize& size, const words::Wording& wording);
// "shaped to the front face (5.0 deg): 25 mm thick at its right end"; empty for a flat one.
std::string block_shape_text(const Block& block, const words::Wording& wording);

}  // namespace cli::model
