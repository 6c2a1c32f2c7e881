#include "cli/pictures/solids.h"

#include <algorithm>
#include <cmath>

#include "cli/model/line_drawing.h"
#include "geometry/elementary.h"

namespace cli::pictures {
namespace {

using geometry::Direction;
using geometry::Facet;
using geometry::Point;

template <typename Change>
void change_points(std::vector<Facet>& facets, const Change& change) {
  const auto change_ring = [&](geometry::Ring& ring) {
    std::transform(ring.begin(), ring.end(), ring.begin(), change);
  };
  for (Facet& facet : facets) {
    for (geometry::Polygon& region : facet.regions) {
      change_ring(region.outer);
      std::for_each(region.holes.begin(), region.holes.end(), change_ring);
    }
    facet.offset_mm = dot(facet.regions.front().outer.front(), facet.normal);
  }
}

// Rodrigues' formula.
Direction turned_direction(const Direction& d, const Direction& along, double angle_rad) {
  const double c = geometry::cosine(angle_rad), s = geometry::sine(angle_rad);
  return c * d + s * cross(along, d) + ((1 - c) * dot(along, d)) * along;
}

}  // namespace

std::vector<Facet> block(const Point& middle, const std::array<Direction, 3>& halves) {
  std::vector<Facet> facets;
  for (std::size_t k = 0; k < 3; ++k) {
    const Direction &n = halves[k], &u = halves[(k + 1) % 3], &v = halves[(k + 2) % 3];
    const double handed = dot(cross(u, v), n) > 0 ? 1 : -1;
    for (const double side : {1.0, -1.0}) {
      const Direction out = side * n, w = (side * handed) * v;
      const Point at = middle + out;
      const Direction normal = geometry::unit(out);
      const geometry::Ring ring{at + (-u - w), at + (u - w), at + (u + w), at + (w - u)};
      facets.push_back({normal, dot(at, normal), {{ring, {}}}, 4 * length(u) * length(v)});
    }
  }
  return facets;
}

std::vector<Facet> rod(const Point& a, const Point& b, const Direction& side, double wide, double thick) {
  const Direction half = 0.5 * (b - a);
  return block(a + half, {half, (wide / 2) * side, (thick / 2) * geometry::unit(cross(half, side))});
}

std::vector<Facet> extruded(const geometry::Ring& ring, const Direction& half) {
  const auto shifted = [&](double side) {
    geometry::Ring out = ring;
    std::transform(out.begin(), out.end(), out.begin(), [&](const Point& p) { return p + side * half; });
    return out;
  };
  const geometry::Ring top = shifted(1), bottom = shifted(-1);
  const Direction up = geometry::unit(half);
  const double area = geometry::area_mm2({ring, {}});
  std::vector<Facet> facets{{up, dot(top.front(), up), {{top, {}}}, area},
                            {-up, dot(bottom.front(), -up), {{{bottom.rbegin(), bottom.rend()}, {}}}, area}};
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const std::size_t next = (i + 1) % ring.size();
    const Direction run = ring[next] - ring[i];
    const Direction normal = geometry::unit(cross(run, up));
    facets.push_back({normal, dot(ring[i], normal), {{{bottom[i], bottom[next], top[next], top[i]}, {}}},
                      2 * length(run) * length(half)});
  }
  return facets;
}

std::vector<Facet> moved(std::vector<Facet> facets, const Direction& by) {
  change_points(facets, [&](const Point& p) { return p + by; });
  return facets;
}

Point turned(const Point& p, const geometry::Hinge& hinge, double angle_rad) {
  return hinge.at + turned_direction(p - hinge.at, hinge.along, angle_rad);
}

std::vector<Facet> turned(std::vector<Facet> facets, const geometry::Hinge& hinge, double angle_rad) {
  for (Facet& facet : facets) {
    facet.normal = turned_direction(facet.normal, hinge.along, angle_rad);
  }
  change_points(facets, [&](const Point& p) { return turned(p, hinge, angle_rad); });
  return facets;
}

std::array<geometry::Extent, 3> reach(const std::vector<Facet>& facets,
                                      const std::array<Direction, 3>& axes) {
  return {model::reach_of(facets, axes[0]), model::reach_of(facets, axes[1]),
          model::reach_of(facets, axes[2])};
}

}  // namespace cli::pictures
