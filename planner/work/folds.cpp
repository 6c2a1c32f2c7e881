#include "planner/work/folds.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "geometry/elementary.h"

namespace planner::work {
namespace {

using geometry::Direction;
using geometry::Point;

constexpr double kOnTheLine_mm = 0.01;
constexpr double kLeastFold_deg = 10;

Point middle(const Point& a, const Point& b) {
  return {(a.x + b.x) / 2, (a.y + b.y) / 2, (a.z + b.z) / 2};
}

// The edge of the face that runs along the axis on the far side of both boards.
Point outer_corner(const geometry::Contact& face, const Direction& axis, const Point& boards) {
  const Direction across = cross(face.normal, axis);
  const geometry::Extent extent = extent_along(face.regions, across);
  const double inward = dot(boards - face.centroid, across);
  const double edge = inward > 0 ? extent.lo : extent.hi;
  return face.centroid + (edge - dot(face.centroid, across)) * across;
}

// Outward normal of the board's side that ends in the hinge's line; the mitre itself doesn't count.
std::optional<Direction> outside_at(const geometry::Solid& solid, const geometry::Hinge& hinge,
                                    const Direction& mitre) {
  std::optional<Direction> found;
  for (const geometry::Facet& facet : facets(solid)) {
    const bool through = std::abs(dot(facet.normal, hinge.along)) < 1e-9 &&
                         std::abs(dot(hinge.at, facet.normal) - facet.offset_mm) < kOnTheLine_mm;
    if (through && std::abs(dot(facet.normal, mitre)) < 1 - 1e-9) {
      if (found) {
        return std::nullopt;
      }
      found = facet.normal;
    }
  }
  return found;
}

void add_folds(std::span<const geometry::Solid> solids, const Joint& joint, const Direction& axis,
               std::vector<Fold>& out) {
  const geometry::Contact& face = joint.faces.front().contact;
  const geometry::Solid &a = solids[joint.parts[0]], &b = solids[joint.parts[1]];
  geometry::Hinge hinge{outer_corner(face, axis, middle(centroid(a), centroid(b))), axis};
  if (dot(cross(axis, face.centroid - hinge.at), face.normal) < 0) {
    hinge.along = -axis;
  }
  const auto side_a = outside_at(a, hinge, face.normal), side_b = outside_at(b, hinge, face.normal);
  if (!side_a || !side_b) {
    return;
  }
  const double angle = geometry::arc_cosine(std::clamp(dot(*side_a, *side_b), -1.0, 1.0));
  const double degrees = angle * 180 / std::numbers::pi;
  if (degrees < kLeastFold_deg || degrees > 180 - kLeastFold_deg) {
    return;
  }
  const bool tall = extent_along(face.regions, axis).size() >
                    extent_along(face.regions, cross(face.normal, axis)).size();
  const geometry::Hinge back{hinge.at, -hinge.along};
  out.push_back({hinge, degrees, joint.parts[1], joint.parts[0], face.normal,
                 turned_about(hinge, face.normal, angle / 2), tall});
  out.push_back({back, degrees, joint.parts[0], joint.parts[1], -face.normal,
                 turned_about(back, -face.normal, angle / 2), tall});
}

// How far the point runs before it leaves the rectangle of the extents along u and v.
double arc_inside(const Point& from, const Fold& fold, const std::array<Direction, 2>& ways,
                  const std::array<geometry::Extent, 2>& extents) {
  constexpr int kSteps = 180;
  constexpr double kOnTheRim_mm = 1e-6;
  const double step = fold.angle_deg / kSteps * std::numbers::pi / 180;
  for (int i = 1; i <= kSteps; ++i) {
    const Point p = turned_about(fold.hinge, from, i * step);
    for (const std::size_t k : {0U, 1U}) {
      const double at = dot(p, ways[k]);
      if (at < extents[k].lo - kOnTheRim_mm || at > extents[k].hi + kOnTheRim_mm) {
        return length(cross(fold.hinge.along, from - fold.hinge.at)) * (i - 0.5) * step;
      }
    }
  }
  return length(cross(fold.hinge.along, from - fold.hinge.at)) * kSteps * step;
}

double longest_arc(const geometry::Contact& face, const Fold& fold) {
  constexpr int kGrid = 16;
  const std::array<Direction, 2> ways{face.along, cross(face.normal, face.along)};
  const std::array<geometry::Extent, 2> extents{extent_along(face.regions, ways[0]),
                                                extent_along(face.regions, ways[1])};
  const Point corner = face.centroid + (extents[0].lo - dot(face.centroid, ways[0])) * ways[0] +
                       (extents[1].lo - dot(face.centroid, ways[1])) * ways[1];
  double longest = 0;
  for (int i = 0; i <= kGrid; ++i) {
    for (int j = 0; j <= kGrid; ++j) {
      const Point p = corner + (extents[0].size() * i / kGrid) * ways[0] +
                      (extents[1].size() * j / kGrid) * ways[1];
      longest = std::max(longest, arc_inside(p, fold, ways, extents));
    }
  }
  return longest;
}

}  // namespace

std::vector<Fold> find_folds(std::span<const geometry::Solid> solids,
                             std::span<const Joint> joints) {
  std::vector<Fold> folds;
  for (const Joint& joint : joints) {
    if (joint.kind != JointKind::mitre || joint.faces.size() != 1) {
      continue;
    }
    for (const Direction& axis : geometry::kAxis) {
      if (std::abs(dot(axis, joint.faces.front().contact.normal)) < 1e-9) {
        add_folds(solids, joint, axis, folds);
      }
    }
  }
  return folds;
}

double fold_wipe_mm(const Joint& joint, const Fold& fold) {
  double wiped = 0;
  for (const GlueFace& face : joint.faces) {
    if (std::abs(dot(face.contact.normal, fold.hinge.along)) > 1 - 1e-6) {
      wiped = std::max(wiped, longest_arc(face.contact, fold));
    }
  }
  return wiped;
}

}  // namespace planner::work
