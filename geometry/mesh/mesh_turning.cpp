#include "geometry/mesh/mesh_turning.h"

#include <utility>

#include <CGAL/Polygon_mesh_processing/orient_polygon_soup.h>

namespace geometry {

std::optional<MeshSurface> turned_outward(MeshSurface surface) {
  // False where it had to double points: more than two triangles share an edge, say.
  if (surface.triangles.empty() ||
      !CGAL::Polygon_mesh_processing::orient_polygon_soup(surface.points, surface.triangles) ||
      components_of(surface).surfaces.size() > 1) {
    return std::nullopt;
  }
  for (int ways = 0; ways < 2; ++ways) {
    if (!defect_of(surface)) {
      return surface;
    }
    for (Corners3& t : surface.triangles) {
      std::swap(t[1], t[2]);
    }
  }
  return std::nullopt;
}

}  // namespace geometry
