// Seams of a surface whose two sides are divided differently. For geometry/mesh/ only.
#pragma once
#include "geometry/mesh/mesh_surface.h"

namespace geometry {

// The surface with corners put into edges that are one edge on one side and several on the other,
// as some CAD leaves them; unchanged where it has none. What is open otherwise stays open.
// REQUIRES: it is welded.
MeshSurface seamed(MeshSurface surface);

}  // namespace geometry
