#include "geometry/separation.h"

#include <algorithm>
#include <limits>
#include <optional>

namespace geometry {
namespace {

// The gap between a (below) and b (above) along a unit vector; negative where they overlap.
double gap_along(const RoundedCell& a, const RoundedCell& b, const Direction& n) {
  double top = -std::numeric_limits<double>::infinity();
  for (const Point& p : a.corners) {
    top = std::max(top, dot(p, n));
  }
  double bottom = std::numeric_limits<double>::infinity();
  for (const Point& p : b.corners) {
    bottom = std::min(bottom, dot(p, n));
  }
  return bottom - top;
}

std::optional<Direction> across(const Direction& a, const Direction& b) {
  const Direction n = cross(a, b);
  const double size = length(n);
  // Edges more parallel than this span no plane; faces already cover that case.
  constexpr double kParallel = 1e-9;
  if (size < kParallel) {
    return std::nullopt;
  }
  return (1 / size) * n;
}

// Calls `parted` with every direction in which two convex bodies may be told apart (face normals,
// and common perpendiculars of edges), until it says yes.
template <class Parted>
bool any_normal(const RoundedCell& a, const RoundedCell& b, Parted parted) {
  for (const RoundedCell::Face& face : a.faces) {
    if (parted(face.normal)) {
      return true;
    }
  }
  for (const RoundedCell::Face& face : b.faces) {
    if (parted(-face.normal)) {
      return true;
    }
  }
  for (const Direction& ea : a.edges) {
    for (const Direction& eb : b.edges) {
      const std::optional<Direction> n = across(ea, eb);
      if (n && (parted(*n) || parted(-*n))) {
        return true;
      }
    }
  }
  return false;
}

}  // namespace

bool runs_into(const RoundedCell& mover, const RoundedCell& other, const Direction& d,
               double sliver_mm) {
  // Beside each other: their shadows along d do not overlap. This alone takes the tolerance for
  // faces that are not quite along d.
  for (const RoundedCell* cell : {&mover, &other}) {
    for (const Direction& edge : cell->edges) {
      const std::optional<Direction> n = across(edge, d);
      if (n && (gap_along(mover, other, *n) >= -sliver_mm ||
                gap_along(mover, other, -*n) >= -sliver_mm)) {
        return false;
      }
    }
  }
  // Behind: moving along d only leads away.
  return !any_normal(mover, other, [&](const Direction& n) {
    return dot(n, d) <= 0 && gap_along(mover, other, n) >= -sliver_mm;
  });
}

bool interlocked(const RoundedCell& a, const RoundedCell& b, double depth_mm) {
  return !any_normal(a, b, [&](const Direction& n) { return gap_along(a, b, n) >= -depth_mm; });
}

double thickness_mm(const RoundedCell& cell) {
  double thinnest = std::numeric_limits<double>::infinity();
  for (const RoundedCell::Face& face : cell.faces) {
    double depth = 0;
    for (const Point& p : cell.corners) {
      depth = std::max(depth, face.offset_mm - dot(p, face.normal));
    }
    thinnest = std::min(thinnest, depth);
  }
  return thinnest;
}

}  // namespace geometry
