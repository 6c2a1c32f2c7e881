// From a closed mesh to convex cells.
#pragma once
#include <optional>

#include "geometry/mesh/mesh_facets.h"

namespace geometry {

// The convex cells that a closed surface bounds. Planes of its facets part space until nothing of
// it is left inside a cell; a cell is kept where the surface winds round its middle. A defect where
// it winds round otherwise than once or not at all: it crosses itself.
struct MeshCells {
  Cells cells;
  std::optional<MeshDefect> defect;
};
MeshCells cells_of(const MeshSurface& surface, const MeshFacets& facets);

}  // namespace geometry
