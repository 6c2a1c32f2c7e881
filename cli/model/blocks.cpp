#include "cli/model/blocks.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include <fmt/format.h>

#include "cli/words/trade_words.h"
#include "geometry/elementary.h"
#include "planner/plan/stage_starts.h"

namespace cli::model {
namespace {

using planner::plan::PadSize;
using planner::plan::Plan;
using planner::plan::PlannedClamp;

constexpr std::size_t kEnds[] = {0, 1};

std::string letter_for(std::size_t n) {
  const std::string letter(1, static_cast<char>('A' + n % 26));
  return n < 26 ? letter : letter + std::to_string(n / 26);
}

// What lies at one end of a clamp: the low one (0) or the high one.
Block& block_for(std::vector<Block>& blocks, const PlannedClamp& clamp, bool caul, std::size_t end,
                 const words::Wording& wording) {
  Block wanted;
  wanted.size = caul ? *clamp.caul : clamp.pad;
  wanted.caul = caul;
  wanted.letter = letter_for(blocks.size());
  wanted.wedge = clamp.wedge[end];
  wanted.one_end = clamp.wedge[0].angle_deg > 0 || clamp.wedge[1].angle_deg > 0;
  wanted.face = words::side_word(words::side_towards((end == 0 ? -1.0 : 1.0) * clamp.axis));
  const auto same = [&](const Block& known) {
    return known.caul == caul && known.one_end == wanted.one_end &&
           block_size_text(known.size, wording) == block_size_text(wanted.size, wording) &&
           block_shape_text(known, wording) == block_shape_text(wanted, wording);
  };
  const auto found = std::find_if(blocks.begin(), blocks.end(), same);
  if (found != blocks.end()) {
    return *found;
  }
  blocks.push_back(std::move(wanted));
  return blocks.back();
}

void count(Block& block, std::size_t stage, int more) {
  block.in_stage.resize(std::max(block.in_stage.size(), stage + 1));
  block.in_stage[stage] += more;
}

// What one stage uses is free for the next, once it is out of its clamps.
void count_at_one_time(const Plan& plan, Block& block) {
  block.in_stage.resize(plan.stages.size());
  for (std::size_t s = plan.stages_done; s < plan.stages.size(); ++s) {
    int at_once = 0;
    for (const std::size_t with : in_clamps_with(plan, s)) {
      at_once += block.in_stage[with];
    }
    block.count = std::max(block.count, at_once);
  }
}

void add_clamp(Block& block, int n) {
  if (block.clamps.empty() || block.clamps.back() != n) {
    block.clamps.push_back(n);
  }
}

// A caul that lies under several clamps of one line counts once: it is the same place.
bool shares_caul(const PlannedClamp& a, const PlannedClamp& b) {
  const auto middle = [](const PlannedClamp& c) { return c.at + c.caul_shift_mm * c.pad_along; };
  constexpr double kSame_mm = 1;
  const geometry::Direction apart = middle(b) - middle(a);
  const geometry::Direction beside =
      apart - dot(apart, a.axis) * a.axis;  // a taper's differ along it
  return std::abs(dot(a.axis, b.axis)) > 0.999 && length(beside) < kSame_mm;
}

void add_cauls(const Plan& plan, std::size_t stage, const words::Wording& wording,
               std::vector<Block>& blocks) {
  std::vector<const PlannedClamp*> first_on;  // of each caul, the first clamp on it
  for (const PlannedClamp& clamp : plan.stages[stage].clamps) {
    if (!clamp.caul) {
      continue;
    }
    const bool known = std::any_of(first_on.begin(), first_on.end(),
                                   [&](const PlannedClamp* c) { return shares_caul(*c, clamp); });
    for (const std::size_t end : kEnds) {
      if (end == 0 && clamp.form_mm > 0) {
        continue;  // the jaw grips the form
      }
      Block& block = block_for(blocks, clamp, true, end, wording);
      add_clamp(block, clamp.n);
      count(block, stage, known ? 0 : 1);
    }
    if (!known) {
      first_on.push_back(&clamp);
    }
  }
}

}  // namespace

std::vector<Block> blocks_of(const Plan& plan, const words::Wording& wording) {
  std::vector<Block> blocks;
  for (std::size_t s = 0; s < plan.stages.size(); ++s) {
    for (const PlannedClamp& clamp : plan.stages[s].clamps) {
      if (clamp.pad.thick_mm > 0) {
        for (const std::size_t end : kEnds) {
          Block& block = block_for(blocks, clamp, false, end, wording);
          add_clamp(block, clamp.n);
          block.at_corners = !clamp.round.empty();
          count(block, s, block.at_corners ? static_cast<int>(clamp.round.size()) : 1);
        }
      }
    }
  }
  for (std::size_t s = 0; s < plan.stages.size(); ++s) {
    add_cauls(plan, s, wording, blocks);
  }
  for (Block& block : blocks) {
    count_at_one_time(plan, block);
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

namespace {

// Directions in which a wedge rises: of a compound angle two.
std::vector<geometry::Direction> risen(const planner::plan::Wedge& wedge) {
  constexpr double kCounts = 0.26;  // within 15 degrees of a side that one alone is told
  std::vector<geometry::Direction> out;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    if (std::abs(wedge.rises[axis]) > kCounts) {
      out.push_back((wedge.rises[axis] < 0 ? -1.0 : 1.0) * geometry::kAxis[axis]);
    }
  }
  return out;
}

std::string side_text(const geometry::Direction& toward) {
  return words::side_word(words::side_towards(toward));
}

// "5.0 deg", of a compound angle "5.0 deg front-back, 10.0 deg top-bottom".
std::string angles_text(const planner::plan::Wedge& wedge, const std::vector<geometry::Direction>& risen) {
  if (risen.size() != 2) {
    return fmt::format("{:.1f} deg", wedge.angle_deg);
  }
  const double slope = geometry::tangent(wedge.angle_deg * std::numbers::pi / 180);
  std::string text;
  for (const geometry::Direction& d : risen) {
    const double angle = geometry::arc_tangent(slope * dot(wedge.rises, d)) * 180 / std::numbers::pi;
    text += fmt::format("{}{:.1f} deg {}", text.empty() ? "" : ", ", angle, words::axis_text(d));
  }
  return text;
}

}  // namespace

std::string block_shape_text(const Block& block, const words::Wording& wording) {
  if (block.wedge.angle_deg == 0) {
    return {};
  }
  const std::vector<geometry::Direction> ways = risen(block.wedge);
  const std::string where = ways.size() == 2 ? side_text(ways[0]) + " " + side_text(ways[1]) + " corner"
                                             : side_text(block.wedge.rises) + " end";
  return fmt::format("shaped to the {} face ({}): {} thick at its {}", block.face, angles_text(block.wedge, ways),
                     length_text(block.wedge.thick_mm, wording), where);
}

std::string block_size_text(const PadSize& size, const words::Wording& wording) {
  return size_text({size.along_mm, size.across_mm, size.thick_mm}, wording);
}

}  // namespace cli::model
