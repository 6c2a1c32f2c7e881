// Random boards with random cuts, the same from the same seed everywhere.
#pragma once
#include <cstdint>

#include "scenes/scenes.h"

namespace scenes {

// Whole numbers from a seed alone (splitmix64): the standard library's distributions differ.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  std::int64_t from_to(std::int64_t lo, std::int64_t hi);  // both ends included
  bool one_in(std::int64_t n) { return from_to(1, n) == 1; }

 private:
  std::uint64_t state_;
};

// A board of 20 to 400 mm a side with up to six boxes cut out, which may overlap, reach beyond it
// or miss it; sizes whole mm, 64ths of an inch or odd nanometres.
Recipe random_board(Dice& dice);
// The same with up to two oblique planes clipped off it.
Recipe random_oblique_board(Dice& dice);

// Two to four parts that touch without overlapping: each is let into the ones before it, or parted
// from them by a plane that both share.
Assembly random_assembly(Dice& dice);
// The same, all boxes.
Assembly random_lattice_assembly(Dice& dice);

}  // namespace scenes
