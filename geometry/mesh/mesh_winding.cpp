#include "geometry/mesh/mesh_winding.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "geometry/elementary.h"

namespace geometry {
namespace {

constexpr double kClearMm = 1e-6;

// What a ray from a point does at a triangle: passes it by, leaves the body through it or enters
// there; unclear where it comes so near an edge, or starts so near, that doubles can't tell.
enum class Ray { kPasses, kLeaves, kEnters, kUnclear };

Ray ray_at(const std::array<Point, 3>& t, const Point& p, std::size_t axis) {
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

Winding::Winding(const MeshSurface& surface) : surface_(surface), all_(surface.triangles.size()) {
  constexpr std::size_t kMostBins = 64;  // that one triangle is put into
  std::iota(all_.begin(), all_.end(), std::size_t{0});
  const auto [least, most] =
      std::minmax_element(surface.points.begin(), surface.points.end(),
                          [](const Point& a, const Point& b) { return a.x < b.x; });
  low_mm_ = least->x;
  bins_.resize(1 + static_cast<std::size_t>(std::sqrt(static_cast<double>(all_.size()))));
  width_mm_ = (most->x - low_mm_) / static_cast<double>(bins_.size());
  for (const std::size_t t : all_) {
    const auto [a, b, c] = corners(t);
    const std::size_t first = bin_of(std::min({a.x, b.x, c.x}) - kClearMm);
    const std::size_t last = bin_of(std::max({a.x, b.x, c.x}) + kClearMm);
    if (last - first < kMostBins) {
      for (std::size_t i = first; i <= last; ++i) {
        bins_[i].push_back(t);
      }
    } else {
      long_.push_back(t);
    }
  }
}

std::array<Point, 3> Winding::corners(std::size_t triangle) const {
  const Corners3& t = surface_.triangles[triangle];
  return {surface_.points[t[0]], surface_.points[t[1]], surface_.points[t[2]]};
}

std::size_t Winding::bin_of(double x_mm) const {
  const double bin = (x_mm - low_mm_) / width_mm_;
  return static_cast<std::size_t>(std::clamp(bin, 0.0, static_cast<double>(bins_.size() - 1)));
}

// Of the triangles a ray leaves through, less those it enters through; none where one is unclear.
std::optional<int> Winding::left(const std::vector<std::size_t>& triangles, const Point& p,
                                 std::size_t axis) const {
  int count = 0;
  for (const std::size_t t : triangles) {
    const Ray ray = ray_at(corners(t), p, axis);
    if (ray == Ray::kUnclear) {
      return std::nullopt;
    }
    count += ray == Ray::kLeaves ? 1 : ray == Ray::kEnters ? -1 : 0;
  }
  return count;
}

double Winding::number_at(const Point& p) const {
  const std::optional<int> near = left(bins_[bin_of(p.x)], p, 2), far = left(long_, p, 2);
  if (near && far) {
    return *near + *far;
  }
  for (const std::size_t axis : {std::size_t{0}, std::size_t{1}}) {
    if (const std::optional<int> count = left(all_, p, axis)) {
      return *count;
    }
  }
  return solid_angle_winding(surface_, p);
}

}  // namespace geometry
