#include "geometry/mesh/mesh_winding.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "geometry/elementary.h"

namespace geometry {
namespace {

// What a ray from a point does at a triangle: passes it by, leaves the body through it or enters
// there; unclear where it comes so near an edge, or starts so near, that doubles can't tell.
enum class Ray { kPasses, kLeaves, kEnters, kUnclear };

Ray ray_at(const std::array<Point, 3>& t, const Point& p, std::size_t axis) {
  constexpr double kClearMm = 1e-6;
  const std::size_t u = (axis + 1) % 3, v = (axis + 2) % 3;
  for (const std::size_t k : {u, v}) {
    if (std::min({t[0][k], t[1][k], t[2][k]}) > p[k] + kClearMm ||
        std::max({t[0][k], t[1][k], t[2][k]}) < p[k] - kClearMm) {
      return Ray::kPasses;
    }
  }
  int left = 0, right = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const Point &a = t[i], &b = t[(i + 1) % 3];
    const double du = b[u] - a[u], dv = b[v] - a[v];
    const double side = du * (p[v] - a[v]) - dv * (p[u] - a[u]);
    const double doubt = kClearMm * std::sqrt(du * du + dv * dv);
    left += side > doubt ? 1 : 0;
    right += side < -doubt ? 1 : 0;
  }
  if (left > 0 && right > 0) {
    return Ray::kPasses;
  }
  const Direction n = cross(t[1] - t[0], t[2] - t[0]);
  const double above = dot(p - t[0], n);
  if (left + right < 3 || std::abs(above) <= kClearMm * length(n)) {
    return Ray::kUnclear;
  }
  // Seen against the ray, triangles that it leaves through run counter-clockwise.
  return left > 0 ? (above < 0 ? Ray::kLeaves : Ray::kPasses)
                  : (above > 0 ? Ray::kEnters : Ray::kPasses);
}

std::optional<int> clear_winding(const MeshSurface& surface, const Point& p, std::size_t axis) {
  int count = 0;
  for (const Corners3& t : surface.triangles) {
    const Ray ray =
        ray_at({surface.points[t[0]], surface.points[t[1]], surface.points[t[2]]}, p, axis);
    if (ray == Ray::kUnclear) {
      return std::nullopt;
    }
    count += ray == Ray::kLeaves ? 1 : ray == Ray::kEnters ? -1 : 0;
  }
  return count;
}

// Sum of the solid angles of the triangles, A. van Oosterom and J. Strackee, "The solid angle of a
// plane triangle", IEEE Trans. Biomed. Eng. 30 (1983).
double solid_angle_winding(const MeshSurface& surface, const Point& p) {
  double sum = 0;
  for (const Corners3& t : surface.triangles) {
    const Direction a = surface.points[t[0]] - p, b = surface.points[t[1]] - p,
                    c = surface.points[t[2]] - p;
    const double la = length(a), lb = length(b), lc = length(c);
    sum += arc_tangent(dot(a, cross(b, c)),
                       la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
  }
  return sum / (2 * std::numbers::pi);
}

}  // namespace

// A ray is quick, and tells where it meets the surface clearly; angles tell everywhere.
double winding_number(const MeshSurface& surface, const Point& p) {
  for (const std::size_t axis : {std::size_t{2}, std::size_t{0}, std::size_t{1}}) {
    if (const std::optional<int> count = clear_winding(surface, p, axis)) {
      return *count;
    }
  }
  return solid_angle_winding(surface, p);
}

}  // namespace geometry
