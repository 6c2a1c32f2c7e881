// Whether a point is inside a surface. For geometry/mesh/ only.
#pragma once
#include "geometry/mesh/mesh_surface.h"

namespace geometry {

// How often the closed surface winds round a point off it: 1 inside, 0 outside.
double winding_number(const MeshSurface& surface, const Point& p);

}  // namespace geometry
