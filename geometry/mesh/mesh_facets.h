// The flat facets of a mesh.
#pragma once
#include <optional>
#include <vector>

#include "geometry/exact/body.h"
#include "geometry/mesh/mesh_surface.h"

namespace geometry {

inline constexpr double kFlatMm = 0.01;

// The planes that a surface lies in, and for each triangle which one.
struct MeshFacets {
  struct Plane {
    ExactPlane exact;
    std::optional<LatticePlane> lattice;  // where it lies across an axis
    Direction normal;                     // the same in doubles
    double offset_mm;
    double slack_mm = kFlatMm;  // how far above it a curve that counts as on it may reach
    bool curved = false;        // stands for narrow flats of a curved surface, and lies below them
  };
  std::vector<Plane> planes;
  std::vector<std::size_t> plane_of;
  bool any_curved = false;
};
// Grown from the largest triangle over neighbours within kFlatMm of its plane that look its way. A
// plane within that of lying across an axis does, at a whole nanometre. In order of their largest
// triangle; then those of curved surfaces: narrow flats that meet narrow flats at a few degrees are
// how CAD writes a round. Fewer planes stand for them, some tenths of a mm inside the wood.
// Finer curves take longer than anyone waits. Planes beyond one more than that are not looked for.
inline constexpr std::size_t kMostPlanes = 5000;
MeshFacets facets_of(const MeshSurface& surface);
MeshFacets::Plane lattice_facet(const LatticePlane& plane);

}  // namespace geometry
