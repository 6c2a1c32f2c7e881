#include "planner/work/movement.h"

#include <algorithm>
#include <cmath>

#include "geometry/polygon.h"
#include "planner/tables/wood.h"
#include "planner/work/joint_means.h"
#include "planner/work/joint_kind.h"

namespace planner::work {

namespace {

using geometry::Direction;

constexpr double kWorthANote_mm = 0.5;  // common practice

// Change of a part's size for each percent, in any direction: the strains along its three axes,
// turned into the direction.
double coefficient_along(const Part& part, const Direction& d) {
  const tables::Wood& wood = *wood_of(part);
  const double radial = wood.movement_radial.value_or(0);
  const double tangential = wood.movement_tangential.value_or(0);
  const auto [length, thickness, width] = part_axes(part);
  const auto share = [&](const Direction& axis) { return dot(axis, d) * dot(axis, d); };
  if (wood.kind == tables::WoodKind::sheet) {
    return tangential * (share(length) + share(width));
  }
  return tangential * share(width) + radial * share(thickness);
}

// Along its grain a solid board keeps still, and so does a sheet as good as: only a solid part that
// lies across the direction by more than 30 degrees can tear a line.
bool lies_across(const Part& part, const Direction& d) {
  constexpr double kCos30 = 0.86602540378443865;
  return wood_of(part)->kind != tables::WoodKind::sheet &&
         std::abs(dot(part_axes(part)[0], d)) < kCos30;
}

// Directions in the face along which a part may move: the axes of both laid into the plane.
std::vector<Direction> directions_in(const GlueFace& face, const Part& a, const Part& b) {
  const Direction& normal = face.contact.normal;
  std::vector<Direction> out;
  for (const Part* part : {&a, &b}) {
    for (const Direction& axis : part_axes(*part)) {
      const Direction flat = cross(normal, cross(axis, normal));
      if (length(flat) > 0.5 && (lies_across(a, unit(flat)) || lies_across(b, unit(flat)))) {
        out.push_back(unit(flat));
      }
    }
  }
  return out;
}

CrossGrainNote note_of(const Joint& joint, JointId id, const Job& job, double change_percent) {
  const Part& a = job.parts[joint.parts[0]];
  const Part& b = job.parts[joint.parts[1]];
  CrossGrainNote worst;
  worst.joint = id;
  for (const GlueFace& face : joint.faces) {
    for (const Direction& d : directions_in(face, a, b)) {
      double run = extent_along(face.contact.regions, d).size();
      if (joint.middle_mm > 0) {
        run = std::min(run, joint.middle_mm);
      }
      const double of_a = coefficient_along(a, d), of_b = coefficient_along(b, d);
      const double moved = movement_mm(run, std::abs(of_a - of_b), change_percent);
      if (moved > worst.movement_mm) {
        worst.moving = of_a > of_b ? joint.parts[0] : joint.parts[1];
        worst.glued_mm = run;
        worst.movement_mm = moved;
      }
    }
  }
  worst.warning = worst.movement_mm > kBearable_mm;
  return worst;
}

}  // namespace

double movement_mm(double size_mm, double coefficient_per_percent, double change_percent) {
  return size_mm * coefficient_per_percent * change_percent;
}

std::vector<CrossGrainNote> cross_grain_notes(const Job& job, std::span<const Joint> joints,
                                              double change_percent) {
  std::vector<CrossGrainNote> notes;
  for (JointId id = 0; id < joints.size(); ++id) {
    // A veneer is too thin to pull its core along.
    if (!joints[id].glued || is_veneer(joints[id], job)) {
      continue;
    }
    const CrossGrainNote note = note_of(joints[id], id, job, change_percent);
    if (note.movement_mm > kWorthANote_mm) {
      notes.push_back(note);
    }
  }
  return notes;
}

}  // namespace planner::work
