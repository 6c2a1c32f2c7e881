// Where a surface runs through itself.
#pragma once
#include <optional>

#include "geometry/mesh/mesh_surface.h"

namespace geometry {

// A defect where two triangles without a common corner meet. REQUIRES: the surface is welded.
std::optional<MeshDefect> crossing_of(const MeshSurface& surface);

}  // namespace geometry
