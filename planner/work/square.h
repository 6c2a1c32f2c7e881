// The rings of parts that must come out square, and the part that shuts one.
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

// The rings whose diagonals are measured, the first the one that the work is judged by: open before
// shut, then by the largest opening, of four parts before those with legs. Only rings square to the
// axes count. Cells that share two opposite sides or lie in another are one ring, its outline; a ring that a part
// lies over, other than the first, is kept square by that part. Empty where nothing goes round an
// opening.
std::vector<Ring> find_rings(std::span<const Joint> joints, std::span<const geometry::Box> bounds);
// The first of them.
std::optional<Ring> find_ring(std::span<const Joint> joints, std::span<const geometry::Box> bounds);

// The joint is between two that are next to one another round the ring.
bool in_ring(const Joint& joint, const Ring& ring);

// The part that goes on last over a ring that another part already shuts from its other side, so
// that the inside diagonals must be checked before it: of the two the one on the high side. Nothing
// where the inside stays open.
std::optional<PartId> closing_part(const Ring& ring, std::span<const Joint> joints,
                                   std::span<const geometry::Box> bounds);

}  // namespace planner::work
