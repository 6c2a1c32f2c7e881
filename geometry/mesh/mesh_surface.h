// Triangles of a mesh, before and after they are known to close. For geometry/mesh/ only.
#pragma once
#include <array>
#include <string>
#include <vector>

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

// Edges without their opposite, the way their triangles run.
struct OpenEdge {
  std::size_t from, to, triangle;
};
std::vector<OpenEdge> open_edges(const MeshSurface& surface);

// One surface for each set of triangles joined by edges, in order of their first triangle.
// A defect where more than two triangles meet in an edge: which belong together can't be told.
struct Components {
  std::vector<MeshSurface> surfaces;
  std::optional<MeshDefect> defect;
};
Components components_of(const MeshSurface& surface);

// For each edge of two triangles: which, and its ends.
struct MeshEdge {
  std::size_t from, to, triangle, other;
};
std::vector<MeshEdge> inner_edges(const MeshSurface& surface);

}  // namespace geometry
