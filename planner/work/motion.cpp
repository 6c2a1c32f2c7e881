#include "planner/work/motion.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "geometry/blocking.h"

namespace planner::work {
namespace {

using geometry::Direction;

// A wet face wiped farther than its joint is deep loses its glue; up to this much it is only ranked
// worse (common practice).
constexpr double kMostWipe_mm = 25;

// A fold wipes an arc where a push wipes a straight line as long as the joint is deep.
constexpr double kArc = std::numbers::pi / 2;

bool same(const Direction& a, const Direction& b) {
  return dot(a, b) > 1 - 1e-9;
}

void add_both(std::vector<Direction>& directions, const Direction& d) {
  if (length(d) < 1e-6) {
    return;
  }
  for (const Direction& way : {unit(d), -unit(d)}) {
    if (std::none_of(directions.begin(), directions.end(),
                     [&](const Direction& known) { return same(known, way); })) {
      directions.push_back(way);
    }
  }
}

std::vector<Direction> candidate_directions(std::span<const Joint> joints) {
  std::vector<Direction> directions;
  for (const Direction& axis : geometry::kAxis) {
    add_both(directions, axis);
  }
  for (const Joint& joint : joints) {
    for (std::size_t f = 0; f < joint.faces.size(); ++f) {
      const Direction& n = joint.faces[f].contact.normal;
      add_both(directions, n);
      for (std::size_t g = f + 1; g < joint.faces.size(); ++g) {
        add_both(directions, cross(n, joint.faces[g].contact.normal));
      }
    }
  }
  return directions;
}

// The glued joint of each pair of parts, or null.
std::vector<const Joint*> joints_by_pair(std::span<const Joint> joints, std::size_t parts) {
  std::vector<const Joint*> joint_of(parts * parts, nullptr);
  for (const Joint& joint : joints) {
    if (joint.glued) {
      joint_of[joint.parts[0] * parts + joint.parts[1]] = &joint;
      joint_of[joint.parts[1] * parts + joint.parts[0]] = &joint;
    }
  }
  return joint_of;
}

// Folds come in pairs, each the other seen from the board that stays.
void fill_folds(std::span<const geometry::Solid> solids, const std::vector<const Joint*>& joint_of,
                Motions& motions) {
  const std::size_t n = solids.size();
  for (std::size_t f = 0; f + 1 < motions.folds().size(); f += 2) {
    const Fold& fold = motions.folds()[f];
    for (PartId i = 0; i < n; ++i) {
      for (PartId j = 0; j < n; ++j) {
        if (i == j || i == fold.stays || j == fold.turns) {
          continue;
        }
        const Joint* joint = joint_of[i * n + j];
        if ((joint == nullptr || fold_wipe_mm(*joint, fold) <= kArc * joint->depth_mm + 1e-6) &&
            surely_unfolds(solids[i], solids[j], fold.hinge, fold.angle_deg, fold.off, {})) {
          motions.set_unfolds(f, i, j);
          motions.set_unfolds(f + 1, j, i);
        }
      }
    }
  }
}

}  // namespace

Motions find_motions(std::span<const geometry::Solid> solids, std::span<const Joint> joints) {
  Motions motions(candidate_directions(joints), find_folds(solids, joints), solids.size());
  const auto blocking = find_blocking(solids, motions.directions(), geometry::Tolerance{});
  const std::vector<const Joint*> joint_of = joints_by_pair(joints, solids.size());
  fill_folds(solids, joint_of, motions);
  for (std::size_t d = 0; d < motions.directions().size(); ++d) {
    for (PartId i = 0; i < solids.size(); ++i) {
      for (PartId j = 0; j < solids.size(); ++j) {
        if (i == j || blocking.blocked(d, i, j)) {
          continue;
        }
        motions.set_clear(d, i, j);
        const Joint* joint = joint_of[i * solids.size() + j];
        const double wiped = joint != nullptr ? wiped_mm(*joint, motions.directions()[d]) : 0;
        const double over = joint != nullptr ? wiped - joint->depth_mm : 0;
        if (over <= 1e-6 || wiped <= kMostWipe_mm) {
          motions.allow(d, i, j, std::max(0.0, over));
        }
      }
    }
  }
  return motions;
}

}  // namespace planner::work
