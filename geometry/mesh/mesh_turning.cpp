#include "geometry/mesh/mesh_turning.h"

#include <utility>

namespace geometry {
namespace {

void turn_over(Corners3& triangle) {
  std::swap(triangle[1], triangle[2]);
}

// Whether an edge of both runs the same way in both: then they look opposite ways.
bool run_alike(const Corners3& a, const Corners3& b) {
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      if (a[i] == b[j] && a[(i + 1) % 3] == b[(j + 1) % 3]) {
        return true;
      }
    }
  }
  return false;
}

// Turns all triangles to look as the first does, each as the neighbor it is reached from. CGAL's
// orient_polygon_soup does as much, but that of 5.5.1 never ends on some soups.
void turn_as_the_first(MeshSurface& surface) {
  std::vector<std::vector<std::size_t>> beside(surface.triangles.size());
  for (const MeshEdge& e : inner_edges(surface)) {
    beside[e.triangle].push_back(e.other);
    beside[e.other].push_back(e.triangle);
  }
  std::vector<bool> reached(surface.triangles.size(), false);
  std::vector<std::size_t> todo = {0};
  reached[0] = true;
  while (!todo.empty()) {
    const std::size_t from = todo.back();
    todo.pop_back();
    for (const std::size_t next : beside[from]) {
      if (!reached[next]) {
        reached[next] = true;
        if (run_alike(surface.triangles[from], surface.triangles[next])) {
          turn_over(surface.triangles[next]);
        }
        todo.push_back(next);
      }
    }
  }
}

}  // namespace

std::optional<MeshSurface> turned_outward(MeshSurface surface) {
  const Components pieces = components_of(surface);
  if (pieces.defect || pieces.surfaces.size() != 1) {
    return std::nullopt;
  }
  turn_as_the_first(surface);
  for (int ways = 0; ways < 2; ++ways) {
    if (!defect_of(surface)) {
      return surface;
    }
    for (Corners3& t : surface.triangles) {
      turn_over(t);
    }
  }
  return std::nullopt;
}

}  // namespace geometry
