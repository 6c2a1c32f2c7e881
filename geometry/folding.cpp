#include "geometry/folding.h"

#include <algorithm>
#include <limits>
#include <numbers>

#include "geometry/elementary.h"
#include "geometry/exact/body.h"
#include "geometry/separation.h"

namespace geometry {
namespace {

constexpr double kDegree = std::numbers::pi / 180;

// Where an arc's tangents at both ends of a stretch meet; with the ends, they enclose it.
Point tangents_meet(const Hinge& hinge, const Point& p, double from, double to) {
  const double middle = (from + to) / 2, out = 1 / cosine((to - from) / 2);
  const Direction arm = p - hinge.at;
  const Direction on_axis = dot(arm, hinge.along) * hinge.along;
  const Direction turned = turned_about(hinge, arm - on_axis, middle);
  return hinge.at + (on_axis + out * turned);
}

RoundedCell turned_about(const Hinge& hinge, const RoundedCell& cell, double angle) {
  RoundedCell out;
  const double infinity = std::numeric_limits<double>::infinity();
  out.box = {{infinity, infinity, infinity}, {-infinity, -infinity, -infinity}};
  for (const Point& p : cell.corners) {
    const Point q = turned_about(hinge, p, angle);
    out.corners.push_back(q);
    out.box.lo = {std::min(out.box.lo.x, q.x), std::min(out.box.lo.y, q.y),
                  std::min(out.box.lo.z, q.z)};
    out.box.hi = {std::max(out.box.hi.x, q.x), std::max(out.box.hi.y, q.y),
                  std::max(out.box.hi.z, q.z)};
  }
  for (const RoundedCell::Face& face : cell.faces) {
    const Direction normal = turned_about(hinge, face.normal, angle);
    // The plane's distance from the hinge's point stays.
    out.faces.push_back(
        {normal, face.offset_mm - dot(hinge.at, face.normal) + dot(hinge.at, normal)});
  }
  for (const Direction& edge : cell.edges) {
    out.edges.push_back(turned_about(hinge, edge, angle));
  }
  out.volume_mm3 = cell.volume_mm3;
  out.centroid = turned_about(hinge, cell.centroid, angle);
  return out;
}

// The plane across `n` has all of `points` above it and all of the other's corners below it, but
// for the sliver.
bool parted_along(const Direction& n, const std::vector<Point>& points, const RoundedCell& other,
                  double sliver_mm) {
  double bottom = std::numeric_limits<double>::infinity();
  for (const Point& p : points) {
    bottom = std::min(bottom, dot(p, n));
  }
  return std::all_of(other.corners.begin(), other.corners.end(),
                     [&](const Point& p) { return dot(p, n) <= bottom + sliver_mm; });
}

class Sweep {
 public:
  Sweep(const RoundedCell& mover, const RoundedCell& other, const Hinge& hinge, double sliver_mm)
      : mover_(mover), other_(other), hinge_(hinge), sliver_mm_(sliver_mm) {}

  bool surely_clear(double from, double to) const {
    if (parted(from, to)) {
      return true;
    }
    if (to - from < kDegree) {
      return false;
    }
    const double middle = (from + to) / 2;
    return surely_clear(from, middle) && surely_clear(middle, to);
  }

 private:
  bool parted(double from, double to) const {
    std::vector<Point> hull;
    for (const Point& p : mover_.corners) {
      hull.push_back(turned_about(hinge_, p, from));
      hull.push_back(turned_about(hinge_, p, to));
      hull.push_back(tangents_meet(hinge_, p, from, to));
    }
    const auto parts = [&](const Direction& n) {
      return parted_along(n, hull, other_, sliver_mm_);
    };
    const auto either_way = [&](const Direction& n) { return parts(n) || parts(-n); };
    return either_way(hinge_.along) ||
           std::any_of(other_.faces.begin(), other_.faces.end(),
                       [&](const RoundedCell::Face& face) { return parts(face.normal); }) ||
           std::any_of(mover_.faces.begin(), mover_.faces.end(),
                       [&](const RoundedCell::Face& face) {
                         return parts(-turned_about(hinge_, face.normal, from)) ||
                                parts(-turned_about(hinge_, face.normal, to));
                       }) ||
           parted_by_edges((from + to) / 2, either_way);
  }

  template <class EitherWay>
  bool parted_by_edges(double angle, EitherWay either_way) const {
    for (const Direction& own : mover_.edges) {
      for (const Direction& edge : other_.edges) {
        const Direction n = cross(turned_about(hinge_, own, angle), edge);
        if (length(n) > 1e-6 && either_way(unit(n))) {
          return true;
        }
      }
    }
    return false;
  }

  const RoundedCell& mover_;
  const RoundedCell& other_;
  const Hinge& hinge_;
  double sliver_mm_;
};

}  // namespace

Direction turned_about(const Hinge& hinge, const Direction& d, double angle_rad) {
  const double c = cosine(angle_rad), s = sine(angle_rad);
  return c * d + s * cross(hinge.along, d) + (1 - c) * dot(hinge.along, d) * hinge.along;
}

Point turned_about(const Hinge& hinge, const Point& p, double angle_rad) {
  return hinge.at + turned_about(hinge, p - hinge.at, angle_rad);
}

bool surely_unfolds(const Solid& mover, const Solid& other, const Hinge& hinge, double angle_deg,
                    const Direction& off, const Tolerance& tolerance) {
  constexpr int kStretches = 8;
  const double angle = angle_deg * kDegree;
  for (const RoundedCell& m : mover.body().rounded()) {
    const RoundedCell open = turned_about(hinge, m, angle);
    for (const RoundedCell& o : other.body().rounded()) {
      const Sweep sweep(m, o, hinge, tolerance.sliver_mm);
      for (int i = 0; i < kStretches; ++i) {
        if (!sweep.surely_clear(angle * i / kStretches, angle * (i + 1) / kStretches)) {
          return false;
        }
      }
      if (runs_into(open, o, off, tolerance.sliver_mm)) {
        return false;
      }
    }
  }
  return true;
}

}  // namespace geometry
