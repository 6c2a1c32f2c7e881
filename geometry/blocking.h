// Which solid stops which, moved along a straight line to infinity.
#pragma once
#include <span>
#include <vector>

#include "geometry/contact.h"
#include "geometry/solid.h"

namespace geometry {

// blocked(d, i, j): moving solid i along direction d, any distance, it would run into solid j.
class Blocking {
 public:
  Blocking(std::size_t directions, std::size_t solids)
      : solids_(solids), blocked_(directions * solids * solids, false) {}
  bool blocked(std::size_t direction, std::size_t i, std::size_t j) const {
    return blocked_[(direction * solids_ + i) * solids_ + j];
  }
  void set_blocked(std::size_t direction, std::size_t i, std::size_t j) {
    blocked_[(direction * solids_ + i) * solids_ + j] = true;
  }
  std::size_t solids() const { return solids_; }

 private:
  std::size_t solids_;
  std::vector<bool> blocked_;
};

// Directions need not be unit vectors. Sliding along a touching face is free; overlaps of the swept
// shapes thinner than tolerance.sliver_mm across the direction are ignored.
Blocking find_blocking(std::span<const Solid> solids, std::span<const Direction> directions,
                       const Tolerance& tolerance);

}  // namespace geometry
