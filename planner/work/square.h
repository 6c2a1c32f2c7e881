// The ring of parts that must come out square, and the part that shuts it.
#pragma once
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "planner/work/joint.h"

namespace planner::work {

// Parts round an opening, in order, joined each to the next: four, or four rails with a leg between
// each two.
struct Ring {
  std::vector<PartId> parts;  // lowest id first, then towards the lower of its neighbours
  int normal_axis = 2;        // the opening looks along this axis
  // Sides of the opening and of the ring, along the two other axes in x y z order, mm.
  std::array<double, 2> inside_mm{}, outside_mm{};
};

// The ring with the largest opening, of four parts where there is one; nothing where nothing goes
// round an opening. Only rings square to the axes count: their diagonals are what is measured.
std::optional<Ring> find_ring(std::span<const Joint> joints, std::span<const geometry::Box> bounds);

// The part that goes on last over a ring that another part already shuts from its other side, so
// that the inside diagonals must be checked before it: of the two the one on the high side. Nothing
// where the inside stays open.
std::optional<PartId> closing_part(const Ring& ring, std::span<const Joint> joints,
                                   std::span<const geometry::Box> bounds);

}  // namespace planner::work
