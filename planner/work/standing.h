// What stands on the bench by itself, and what wants a hand until it is pressed.
#pragma once
#include <span>
#include <vector>

#include "planner/work/joint.h"

namespace planner::work {

// Gravity and a nudge against faces that only push: infinitesimal freedom of rigid parts, forces
// for motions (a part stays where pushes of its faces, with friction, can carry its weight however
// it is nudged). The nudge is weight leaning 8 degrees to each side: a board on an edge thinner
// than a seventh of its height falls over. A joint pushes with thirty times the weight at most, and
// what is less than 10 mm above the bench rests on it. Our choices. Friction: dry wood on wood 0.3
// (low end of GTR-190 p. 4-17), glue-wet faces 0.05 (planning assumption: wet glue is a lubricant).
class Standing {
 public:
  // REQUIRES: solids, species and joints of one job; they outlive this.
  Standing(const Job& job, std::span<const geometry::Solid> solids, std::span<const Joint> joints);

  // The parts, taken as one body, stand with `up` (an axis direction) pointing up.
  bool stands(const std::vector<PartId>& parts, const geometry::Direction& up) const;

  // `moving` as one body stays where it is against `staying`, which somebody or something holds,
  // and the bench where it reaches down to it.
  bool stays(const std::vector<PartId>& moving, const std::vector<PartId>& staying,
             const geometry::Direction& up) const;

 private:
  struct Weight {
    double mass = 0;  // of any unit, alike for all
    geometry::Point centroid;
  };
  Weight weight_of(const std::vector<PartId>& parts) const;
  double lowest(const std::vector<PartId>& parts, const geometry::Direction& up) const;
  // Corners that rest on the bench, whose height is `level`.
  std::vector<geometry::Point> feet(const std::vector<PartId>& parts, const geometry::Direction& up,
                                    double level) const;

  std::span<const Joint> joints_;
  std::vector<Weight> weights_;                        // by part
  std::vector<std::vector<geometry::Point>> corners_;  // by part
};

}  // namespace planner::work
