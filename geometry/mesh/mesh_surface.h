// Triangles of a mesh, before and after they are known to close. For geometry/mesh*.cpp only.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "geometry/exact/body.h"
#include "geometry/mesh/mesh_file.h"

namespace geometry {

using Corners3 = std::array<std::size_t, 3>;

struct MeshSurface {
  std::string name;
  std::vector<Point> points;  // mm
  std::vector<Corners3> triangles;
};

// Adds a flat polygon as triangles; it need not be convex. Corners index `surface.points`.
// REQUIRES: kMostCorners at most; it is cut corner by corner.
inline constexpr std::size_t kMostCorners = 1000;
void add_polygon(const std::vector<std::size_t>& corners, MeshSurface& surface);

// The triangles with only those of `points` that they have. Their corners index `points`.
MeshSurface compact(std::string name, const std::vector<Point>& points,
                    const std::vector<Corners3>& triangles);

// Points closer than a ten thousandth of a mm become one; triangles that this flattens go.
MeshSurface welded(const MeshSurface& surface);

// What keeps a welded surface from bounding a body: an edge without its opposite, or its inside
// out.
std::optional<MeshDefect> defect_of(const MeshSurface& surface);

// One surface for each set of triangles joined by edges, in order of their first triangle.
// A defect where more than two triangles meet in an edge: which belong together can't be told.
struct Components {
  std::vector<MeshSurface> surfaces;
  std::optional<MeshDefect> defect;
};
Components components_of(const MeshSurface& surface);

// How often the surface winds round a point off it: 1 inside, 0 outside.
double winding_number(const MeshSurface& surface, const Point& p);

// The planes that a surface lies in, and for each triangle which one.
struct MeshFacets {
  struct Plane {
    ExactPlane exact;
    std::optional<LatticePlane> lattice;  // where it lies across an axis
    Direction normal;                     // the same in doubles
    double offset_mm;
  };
  std::vector<Plane> planes;
  std::vector<std::size_t> plane_of;
};
// Grown from the largest triangle over neighbours within kFlatMm of its plane. A plane within that
// of lying across an axis does, at a whole nanometre. In order of their largest triangle.
inline constexpr double kFlatMm = 0.01;
// Finer curves take longer than anyone waits. Planes beyond one more than that are not looked for.
inline constexpr std::size_t kMostPlanes = 5000;
MeshFacets facets_of(const MeshSurface& surface);
MeshFacets::Plane lattice_facet(const LatticePlane& plane);

// The convex cells that a closed surface bounds. Planes of its facets part space until nothing of
// it is left inside a cell; a cell is kept where the surface winds round its middle. A defect where
// it winds round otherwise than once or not at all: it crosses itself.
struct MeshCells {
  Cells cells;
  std::optional<MeshDefect> defect;
};
MeshCells cells_of(const MeshSurface& surface, const MeshFacets& facets);

// For each edge of two triangles: which, and its ends.
struct MeshEdge {
  std::size_t from, to, triangle, other;
};
std::vector<MeshEdge> inner_edges(const MeshSurface& surface);

// Readers. Their defects have no part's name where the whole file is meant.
struct MeshText {
  std::vector<MeshSurface> surfaces;
  std::vector<MeshDefect> defects;
};
MeshText read_obj(std::string_view text, double unit_mm);
MeshText read_off(std::string_view text, double unit_mm);
MeshText read_ply(std::string_view bytes, double unit_mm);
MeshText read_stl(std::string_view bytes, double unit_mm);

}  // namespace geometry
