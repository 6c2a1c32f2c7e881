// Whether points are inside a surface. For geometry/mesh/ only.
#pragma once
#include <array>
#include <optional>
#include <vector>

#include "geometry/mesh/mesh_surface.h"

namespace geometry {

// How often a closed surface winds round points off it: 1 inside, 0 outside. Rays are quick, and
// tell where they meet the surface clearly; the angles it is seen at tell everywhere.
class Winding {
 public:
  // REQUIRES: the surface bounds a volume, and outlives this.
  explicit Winding(const MeshSurface& surface);
  double number_at(const Point& p) const;

 private:
  std::array<Point, 3> corners(std::size_t triangle) const;
  std::size_t bin_of(double x_mm) const;
  std::optional<int> left(const std::vector<std::size_t>& triangles, const Point& p,
                          std::size_t axis) const;

  const MeshSurface& surface_;
  std::vector<std::size_t> all_, long_;         // long: in more bins than it pays
  std::vector<std::vector<std::size_t>> bins_;  // by x, from `low_mm_` in steps of `width_mm_`
  double low_mm_ = 0, width_mm_ = 1;
};

}  // namespace geometry
