#include "geometry/mesh/mesh_facets.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace geometry {
namespace {

Direction twice_area(const MeshSurface& surface, const Corners3& t) {
  return cross(surface.points[t[1]] - surface.points[t[0]],
               surface.points[t[2]] - surface.points[t[0]]);
}

// Triangles next to each triangle.
std::vector<std::vector<std::size_t>> neighbours(const MeshSurface& surface) {
  std::vector<std::vector<std::size_t>> near(surface.triangles.size());
  for (const MeshEdge& e : inner_edges(surface)) {
    near[e.triangle].push_back(e.other);
    near[e.other].push_back(e.triangle);
  }
  return near;
}

struct Fit {
  Direction normal;  // area weighted, not of unit length
  Point middle;
};

Fit fit(const MeshSurface& surface, const std::vector<std::size_t>& region) {
  const Point origin = surface.points[surface.triangles[region.front()][0]];
  Fit f;
  double weight = 0;
  Direction moment;
  for (const std::size_t t : region) {
    const Direction twice = twice_area(surface, surface.triangles[t]);
    f.normal = f.normal + twice;
    weight += length(twice);
    for (const std::size_t corner : surface.triangles[t]) {
      moment = moment + length(twice) / 3 * (surface.points[corner] - origin);
    }
  }
  f.middle = origin + (1 / weight) * moment;
  return f;
}

std::size_t main_axis(const Direction& n) {
  std::size_t axis = 0;
  for (const std::size_t k : {std::size_t{1}, std::size_t{2}}) {
    if (std::abs(n[k]) > std::abs(n[axis])) {
      axis = k;
    }
  }
  return axis;
}

bool lies_across(const MeshSurface& surface, const std::vector<std::size_t>& region,
                 std::size_t axis, double at) {
  return std::all_of(region.begin(), region.end(), [&](std::size_t t) {
    return std::all_of(
        surface.triangles[t].begin(), surface.triangles[t].end(),
        [&](std::size_t corner) { return std::abs(surface.points[corner][axis] - at) <= kFlatMm; });
  });
}

MeshFacets::Plane plane_of(const MeshSurface& surface, const std::vector<std::size_t>& region) {
  const Fit f = fit(surface, region);
  const std::size_t k = main_axis(f.normal);
  const int sign = f.normal[k] > 0 ? 1 : -1;
  if (lies_across(surface, region, k, f.middle[k])) {
    return lattice_facet({static_cast<int>(k), sign, to_nm(f.middle[k])});
  }
  // Rounded to 2^-40, which turns 400 mm by less than a nanometre: directions that a drawing means
  // to be whole, such as 45 degrees, are whole again, and coordinates stay short.
  constexpr double kSteps = 1099511627776.0;
  std::array<Rational, 3> outward;
  double offset_nm = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double ratio = std::round(f.normal[i] / std::abs(f.normal[k]) * kSteps) / kSteps;
    outward[i] = Rational(ratio);
    offset_nm += ratio * f.middle[i] * 1e6;
  }
  MeshFacets::Plane plane{
      make_plane(outward, Rational(std::round(offset_nm * 1024) / 1024)), std::nullopt, {}, 0};
  plane.normal = plane.exact.unit_normal();
  plane.offset_mm = offset_mm(plane.exact);
  return plane;
}

}  // namespace

MeshFacets::Plane lattice_facet(const LatticePlane& plane) {
  return {lattice_plane(plane.axis, plane.sign, plane.offset), plane, unit_normal(plane),
          offset_mm(plane)};
}

MeshFacets facets_of(const MeshSurface& surface) {
  constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();
  const std::size_t count = surface.triangles.size();
  const std::vector<std::vector<std::size_t>> near = neighbours(surface);
  std::vector<double> area(count);
  for (std::size_t t = 0; t < count; ++t) {
    area[t] = length(twice_area(surface, surface.triangles[t]));
  }
  std::vector<std::size_t> seeds(count);
  std::iota(seeds.begin(), seeds.end(), 0u);
  std::stable_sort(seeds.begin(), seeds.end(),
                   [&](std::size_t a, std::size_t b) { return area[a] > area[b]; });
  MeshFacets facets{{}, std::vector<std::size_t>(count, kNone)};
  for (const std::size_t seed : seeds) {
    if (facets.plane_of[seed] != kNone || area[seed] == 0) {
      continue;
    }
    if (facets.planes.size() > kMostPlanes) {
      break;
    }
    const Direction normal = unit(twice_area(surface, surface.triangles[seed]));
    const Point on = surface.points[surface.triangles[seed][0]];
    std::vector<std::size_t> region = {seed};
    facets.plane_of[seed] = facets.planes.size();
    for (std::size_t i = 0; i < region.size(); ++i) {
      for (const std::size_t t : near[region[i]]) {
        const Corners3& corners = surface.triangles[t];
        const bool flat = std::all_of(corners.begin(), corners.end(), [&](std::size_t c) {
          return std::abs(dot(surface.points[c] - on, normal)) <= kFlatMm;
        });
        // The thinnest triangles look anywhere; else what looks away is the back of a thin part.
        const bool faces_away = dot(twice_area(surface, corners), normal) < -0.1 * area[t];
        if (facets.plane_of[t] == kNone && flat && !faces_away) {
          facets.plane_of[t] = facets.planes.size();
          region.push_back(t);
        }
      }
    }
    facets.planes.push_back(plane_of(surface, region));
  }
  // Triangles of no area that no region reached bound nothing.
  for (std::size_t& plane : facets.plane_of) {
    plane = plane == kNone ? 0 : plane;
  }
  return facets;
}

}  // namespace geometry
