// The flat facets of a mesh.
#pragma once
#include <optional>
#include <vector>

#include "geometry/exact/body.h"
#include "geometry/mesh/mesh_surface.h"

namespace geometry {

// The planes that a surface lies in, and for each triangle which one.
struct MeshFacets {
  struct Plane {
    ExactPlane exact;
    std::optional<LatticePlane> lattice;  // where it lies across an axis
    Direction normal;                     // the same in doubles
    double offset_mm;
  };
  std::vector<Plane> planes;
  std::vector<std::size_t> plane_of;
};
// Grown from the largest triangle over neighbours within kFlatMm of its plane. A plane within that
// of lying across an axis does, at a whole nanometre. In order of their largest triangle.
inline constexpr double kFlatMm = 0.01;
// Finer curves take longer than anyone waits. Planes beyond one more than that are not looked for.
inline constexpr std::size_t kMostPlanes = 5000;
MeshFacets facets_of(const MeshSurface& surface);
MeshFacets::Plane lattice_facet(const LatticePlane& plane);

}  // namespace geometry
