#include "cli/sheet/blocks.h"

#include <algorithm>
#include <cmath>

namespace cli {
namespace {

using planner::PadSize;
using planner::Plan;
using planner::PlannedClamp;
using planner::Stage;

std::string letter_for(std::size_t n) {
  const std::string letter(1, static_cast<char>('A' + n % 26));
  return n < 26 ? letter : letter + std::to_string(n / 26);
}

Block& block_for(std::vector<Block>& blocks, const PadSize& size, bool caul,
                 const Wording& wording) {
  const auto same = [&](const Block& known) {
    return known.caul == caul &&
           block_size_text(known.size, wording) == block_size_text(size, wording);
  };
  const auto found = std::find_if(blocks.begin(), blocks.end(), same);
  if (found != blocks.end()) {
    return *found;
  }
  blocks.push_back({size, caul, letter_for(blocks.size()), 0, {}, false});
  return blocks.back();
}

// A caul that lies under several clamps of one line counts once: it is the same place.
bool shares_caul(const PlannedClamp& a, const PlannedClamp& b) {
  const auto middle = [](const PlannedClamp& c) { return c.at + c.caul_shift_mm * c.pad_along; };
  constexpr double kSame_mm = 1;
  return std::abs(dot(a.axis, b.axis)) > 0.999 && length(middle(b) - middle(a)) < kSame_mm;
}

void add_cauls(const Stage& stage, const Wording& wording, std::vector<Block>& blocks) {
  std::vector<const PlannedClamp*> first_on;  // of each caul, the first clamp on it
  for (const PlannedClamp& clamp : stage.clamps) {
    if (!clamp.caul) {
      continue;
    }
    Block& block = block_for(blocks, *clamp.caul, true, wording);
    block.clamps.push_back(clamp.n);
    const bool known = std::any_of(first_on.begin(), first_on.end(),
                                   [&](const PlannedClamp* c) { return shares_caul(*c, clamp); });
    if (!known) {
      first_on.push_back(&clamp);
      block.count += 2;
    }
  }
}

}  // namespace

std::vector<Block> blocks_of(const Plan& plan, const Wording& wording) {
  std::vector<Block> blocks;
  for (const Stage& stage : plan.stages) {
    for (const PlannedClamp& clamp : stage.clamps) {
      if (clamp.pad.thick_mm > 0) {
        Block& block = block_for(blocks, clamp.pad, false, wording);
        block.clamps.push_back(clamp.n);
        block.at_corners = !clamp.round.empty();
        block.count += block.at_corners ? 2 * static_cast<int>(clamp.round.size()) : 2;
      }
    }
  }
  for (const Stage& stage : plan.stages) {
    add_cauls(stage, wording, blocks);
  }
  return blocks;
}

std::string blocks_under(const std::vector<Block>& blocks, int clamp) {
  std::string text;
  for (const Block& block : blocks) {
    if (std::find(block.clamps.begin(), block.clamps.end(), clamp) != block.clamps.end()) {
      text += (text.empty() ? "" : "+") + block.letter;
    }
  }
  return text.empty() ? "-" : text;
}

std::string block_size_text(const PadSize& size, const Wording& wording) {
  return size_text({size.along_mm, size.across_mm, size.thick_mm}, wording);
}

}  // namespace cli
