#include "scenes/random_parts.h"

namespace scenes {

using geometry::HalfSpace;
using geometry::LatticeBox;
using geometry::Length;

std::int64_t Dice::from_to(std::int64_t lo, std::int64_t hi) {
  state_ += 0x9E3779B97F4A7C15u;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
  z ^= z >> 31;
  return lo + static_cast<std::int64_t>(z % static_cast<std::uint64_t>(hi - lo + 1));
}

namespace {

Length length(Dice& dice, std::int64_t lo_mm, std::int64_t hi_mm) {
  switch (dice.from_to(0, 2)) {
    case 0:
      return Length::whole_mm(dice.from_to(lo_mm, hi_mm));
    case 1:
      return Length::in_64ths(dice.from_to(lo_mm * 64 / 25, hi_mm * 64 / 25));
    default:
      return Length::nm(dice.from_to(lo_mm * 1'000'000, hi_mm * 1'000'000));
  }
}

// From 20 mm below the board to 20 above it, often flush with one of its sides.
LatticeBox random_tool(Dice& dice, const LatticeBox& board) {
  LatticeBox tool;
  for (std::size_t k = 0; k < 3; ++k) {
    const Length size = board.hi[k] - board.lo[k];
    const std::int64_t size_mm = size.nanometres() / 1'000'000;
    tool.lo[k] = dice.one_in(4) ? board.lo[k] : board.lo[k] + length(dice, -20, size_mm);
    tool.hi[k] = dice.one_in(4) ? board.hi[k] : tool.lo[k] + length(dice, 1, size_mm / 2 + 10);
    if (tool.hi[k] <= tool.lo[k]) {
      tool.hi[k] = tool.lo[k] + Length::whole_mm(7);
    }
  }
  return tool;
}

// Through the board's middle third, so that neither side is empty.
HalfSpace random_plane(Dice& dice, const LatticeBox& board) {
  HalfSpace half{};
  do {
    for (std::int64_t& c : half.normal) {
      c = dice.from_to(-3, 3);
    }
  } while ((half.normal[0] != 0) + (half.normal[1] != 0) + (half.normal[2] != 0) < 2);
  for (std::size_t k = 0; k < 3; ++k) {
    const std::int64_t size_mm = (board.hi[k] - board.lo[k]).nanometres() / 1'000'000;
    half.through[k] = board.lo[k] + length(dice, size_mm / 3, 2 * size_mm / 3 + 1);
  }
  return half;
}

HalfSpace opposite(HalfSpace half) {
  for (std::int64_t& c : half.normal) {
    c = -c;
  }
  return half;
}

Recipe board_near(Dice& dice, std::int64_t reach_mm) {
  Recipe recipe;
  for (std::size_t k = 0; k < 3; ++k) {
    recipe.board.lo[k] = length(dice, 0, reach_mm);
    recipe.board.hi[k] = recipe.board.lo[k] + length(dice, 20, 400);
  }
  for (std::int64_t n = dice.from_to(0, 6); n > 0; --n) {
    recipe.cuts.push_back(random_tool(dice, recipe.board));
  }
  return recipe;
}

Assembly assembly_of(Dice& dice, bool oblique) {
  Assembly assembly;
  for (std::int64_t n = dice.from_to(2, 4); n > 0; --n) {
    Recipe part = board_near(dice, 150);
    if (oblique && dice.one_in(2)) {
      part.keep.push_back(random_plane(dice, part.board));
    }
    for (Recipe& before : assembly) {
      if (oblique && dice.one_in(3)) {
        const HalfSpace shared = random_plane(dice, before.board);
        before.keep.push_back(shared);
        part.keep.push_back(opposite(shared));
      } else {
        before.cuts.push_back(part.board);
      }
    }
    assembly.push_back(part);
  }
  return assembly;
}

}  // namespace

Recipe random_board(Dice& dice) {
  return board_near(dice, 0);
}

Recipe random_oblique_board(Dice& dice) {
  Recipe recipe = board_near(dice, 0);
  for (std::int64_t n = dice.from_to(1, 2); n > 0; --n) {
    recipe.keep.push_back(random_plane(dice, recipe.board));
  }
  return recipe;
}

Assembly random_assembly(Dice& dice) {
  return assembly_of(dice, true);
}

Assembly random_lattice_assembly(Dice& dice) {
  return assembly_of(dice, false);
}

}  // namespace scenes
