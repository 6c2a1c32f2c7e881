#include "twins/nef_twin.h"

#include <cmath>

#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Nef_polyhedron_3.h>
#include <CGAL/Polyhedron_3.h>
#include <CGAL/boost/graph/convert_nef_polyhedron_to_polygon_mesh.h>
#include <CGAL/boost/graph/generators.h>

namespace twins {
namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Nef = CGAL::Nef_polyhedron_3<Kernel>;
using P3 = Kernel::Point_3;
using V3 = Kernel::Vector_3;

Nef hexahedron(const std::array<P3, 8>& p) {
  CGAL::Polyhedron_3<Kernel> polyhedron;
  CGAL::make_hexahedron(p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], polyhedron);
  return Nef(polyhedron);
}

Nef nef_box(const geometry::LatticeBox& box) {
  const auto at = [&](int x, int y, int z) {
    const auto c = [&](int up, std::size_t k) {
      return static_cast<double>((up ? box.hi[k] : box.lo[k]).nanometres());
    };
    return P3(c(x, 0), c(y, 1), c(z, 2));
  };
  // In the order of make_hexahedron: round the bottom, then the top from the first one's neighbour.
  return hexahedron({at(0, 0, 0), at(1, 0, 0), at(1, 1, 0), at(0, 1, 0), at(0, 1, 1), at(0, 0, 1),
                     at(1, 0, 1), at(1, 1, 1)});
}

// What a half space leaves out, as far as any board reaches: a slab on its plane.
Nef nef_beyond(const geometry::HalfSpace& half) {
  constexpr double kFar = 1e10;  // nm
  const auto c = [](std::int64_t n) { return static_cast<double>(n); };
  const V3 n(c(half.normal[0]), c(half.normal[1]), c(half.normal[2]));
  const P3 o(c(half.through[0].nanometres()), c(half.through[1].nanometres()),
             c(half.through[2].nanometres()));
  const V3 helper = half.normal[0] != 0 ? V3(0, 1, 0) : V3(1, 0, 0);
  const V3 u = CGAL::cross_product(n, helper), v = CGAL::cross_product(n, u);
  const auto at = [&](int x, int y, int z) {
    return o + kFar * (2 * x - 1) * u + kFar * (2 * y - 1) * v + kFar * z * n;
  };
  return hexahedron({at(0, 0, 0), at(1, 0, 0), at(1, 1, 0), at(0, 1, 0), at(0, 1, 1), at(0, 0, 1),
                     at(1, 0, 1), at(1, 1, 1)});
}

}  // namespace

NefFigures nef_figures(const scenes::Recipe& recipe) {
  Nef solid = nef_box(recipe.board);
  for (const geometry::HalfSpace& keep : recipe.keep) {
    solid -= nef_beyond(keep);
  }
  for (const geometry::LatticeBox& cut : recipe.cuts) {
    solid -= nef_box(cut);
  }
  for (const std::vector<geometry::HalfSpace>& prism : recipe.prisms) {
    Nef tool = nef_box(recipe.board);
    for (const geometry::HalfSpace& side : prism) {
      tool -= nef_beyond(side);
    }
    solid -= tool;
  }
  solid = solid.regularization();
  if (solid.is_empty()) {
    return {};
  }
  std::vector<P3> points;
  std::vector<std::vector<std::size_t>> triangles;
  CGAL::convert_nef_polyhedron_to_polygon_soup(solid, points, triangles, true);
  Kernel::FT six = 0;
  NefFigures figures;
  for (const std::vector<std::size_t>& t : triangles) {
    const V3 a = points[t[0]] - CGAL::ORIGIN, b = points[t[1]] - CGAL::ORIGIN,
             c = points[t[2]] - CGAL::ORIGIN;
    six += CGAL::determinant(a, b, c);
    const V3 twice = CGAL::cross_product(b - a, c - a);
    figures.surface_mm2 += std::sqrt(CGAL::to_double(twice.squared_length())) / 2 / 1e12;
  }
  figures.volume_mm3 = CGAL::to_double(six) / 6 / 1e18;
  return figures;
}

}  // namespace twins
