#include "geometry/mesh/mesh_seams.h"

#include <algorithm>
#include <utility>

namespace geometry {
namespace {

constexpr double kOnEdgeMm = 1e-4;  // as far as points are one

// How far along the edge a point lies, 0 to 1, where it is strictly inside it.
std::optional<double> place_on(const Point& from, const Point& to, const Point& p) {
  const Direction edge = to - from;
  const double t = dot(p - from, edge) / dot(edge, edge);
  const bool is_inside = t * length(edge) > kOnEdgeMm && (1 - t) * length(edge) > kOnEdgeMm;
  return is_inside && length(p - (from + t * edge)) <= kOnEdgeMm ? std::optional(t) : std::nullopt;
}

// The ends of other open edges in it, from its start to its end.
std::vector<std::size_t> corners_in(const MeshSurface& surface, const OpenEdge& edge,
                                    const std::vector<std::size_t>& ends) {
  std::vector<std::pair<double, std::size_t>> found;
  for (const std::size_t end : ends) {
    if (const auto t =
            place_on(surface.points[edge.from], surface.points[edge.to], surface.points[end])) {
      found.emplace_back(*t, end);
    }
  }
  std::sort(found.begin(), found.end());
  std::vector<std::size_t> corners;
  for (const auto& [t, end] : found) {
    corners.push_back(end);
  }
  return corners;
}

// Puts corners into the triangle's edge: a fan from the corner across.
void divide(MeshSurface& surface, const OpenEdge& edge, std::vector<std::size_t> corners) {
  const Corners3 whole = surface.triangles[edge.triangle];
  const std::size_t across = *std::find_if(
      whole.begin(), whole.end(), [&](std::size_t c) { return c != edge.from && c != edge.to; });
  corners.push_back(edge.to);
  surface.triangles[edge.triangle] = {edge.from, corners.front(), across};
  for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
    surface.triangles.push_back({corners[i], corners[i + 1], across});
  }
}

// One edge of each triangle at most; false where none has a corner in it.
bool divide_once(MeshSurface& surface, const std::vector<OpenEdge>& open) {
  std::vector<std::size_t> ends, divided;
  for (const OpenEdge& edge : open) {
    ends.insert(ends.end(), {edge.from, edge.to});
  }
  std::sort(ends.begin(), ends.end());
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  for (const OpenEdge& edge : open) {
    std::vector<std::size_t> corners = corners_in(surface, edge, ends);
    if (!corners.empty() &&
        std::find(divided.begin(), divided.end(), edge.triangle) == divided.end()) {
      divide(surface, edge, std::move(corners));
      divided.push_back(edge.triangle);
    }
  }
  return !divided.empty();
}

}  // namespace

MeshSurface seamed(MeshSurface surface) {
  constexpr std::size_t kMostOpen = 4000;  // each is held against all ends
  constexpr int kSides = 3;                // of a triangle, one at a time
  for (int i = 0; i < kSides; ++i) {
    const std::vector<OpenEdge> open = open_edges(surface);
    if (open.empty() || open.size() > kMostOpen || !divide_once(surface, open)) {
      break;
    }
  }
  return surface;
}

}  // namespace geometry
