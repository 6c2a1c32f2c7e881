#include "twins/mesh_twin.h"

#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/corefinement.h>
#include <CGAL/Polygon_mesh_processing/measure.h>
#include <CGAL/Polygon_mesh_processing/triangulate_faces.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/boost/graph/generators.h>

namespace twins {
namespace {

namespace pmp = CGAL::Polygon_mesh_processing;
using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Mesh = CGAL::Surface_mesh<Kernel::Point_3>;

Mesh box_mesh(const geometry::LatticeBox& box) {
  const auto at = [&](int x, int y, int z) {
    const auto c = [&](int up, std::size_t k) {
      return static_cast<double>((up ? box.hi[k] : box.lo[k]).nanometres());
    };
    return Kernel::Point_3(c(x, 0), c(y, 1), c(z, 2));
  };
  Mesh mesh;
  // Round the bottom, then the top from the first one's neighbour.
  CGAL::make_hexahedron(at(0, 0, 0), at(1, 0, 0), at(1, 1, 0), at(0, 1, 0), at(0, 1, 1),
                        at(0, 0, 1), at(1, 0, 1), at(1, 1, 1), mesh);
  pmp::triangulate_faces(mesh);
  return mesh;
}

}  // namespace

double mesh_volume_mm3(const scenes::Recipe& recipe) {
  Mesh mesh = box_mesh(recipe.board);
  for (const geometry::LatticeBox& cut : recipe.cuts) {
    Mesh tool = box_mesh(cut);
    Mesh rest;
    pmp::corefine_and_compute_difference(mesh, tool, rest);
    mesh = std::move(rest);
  }
  return CGAL::to_double(pmp::volume(mesh)) / 1e18;
}

}  // namespace twins
