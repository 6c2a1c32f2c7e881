// The flat faces of a body as drawn, where cells only come near to its curved ones.
#pragma once
#include "geometry/mesh/mesh_facets.h"

namespace geometry {

// Its faces but for the curved ones, exactly as outlined, and what it holds. Curved surfaces are
// left out: nothing is glued or clamped on a round.
Drawn drawn_of(const MeshSurface& surface, const MeshFacets& facets);

// The area of the curved faces.
double curved_mm2(const MeshSurface& surface, const MeshFacets& facets);

}  // namespace geometry
