#include "cli/pictures/sides.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "cli/model/line_drawing.h"
#include "cli/pictures/turning.h"
#include "geometry/elementary.h"

namespace cli::pictures {
namespace {

using geometry::Direction;
using geometry::Facet;
using geometry::Point;

// The middle of its largest triangle: always on the facet, whatever its shape.
Point spot_on(const Facet& facet) {
  Point best;
  double largest = -1;
  for (const geometry::Polygon& region : facet.regions) {
    const std::vector<Point> all = triangles_of(region, facet.normal);
    for (std::size_t i = 0; i + 2 < all.size(); i += 3) {
      const Direction ab = all[i + 1] - all[i], ac = all[i + 2] - all[i];
      const double size = length(cross(ab, ac));
      if (size > largest) {
        largest = size;
        best = all[i] + (1.0 / 3) * (ab + ac);
      }
    }
  }
  return best;
}

// Whether a ray meets a box at all.
bool meets_box(const geometry::Box& box, const Point& from, const Direction& way) {
  double near = -1e300, far = 1e300;
  const std::array<std::array<double, 4>, 3> axes{{{box.lo.x, box.hi.x, from.x, way.x},
                                                   {box.lo.y, box.hi.y, from.y, way.y},
                                                   {box.lo.z, box.hi.z, from.z, way.z}}};
  for (const auto& [lo, hi, at, runs] : axes) {
    if (std::abs(runs) < 1e-9) {
      if (at < lo || at > hi) {
        return false;
      }
      continue;
    }
    near = std::max(near, std::min((lo - at) / runs, (hi - at) / runs));
    far = std::min(far, std::max((lo - at) / runs, (hi - at) / runs));
  }
  return far >= std::max(near, 0.0);
}

// How far along a ray a triangle is; negative where it is missed. T. Moeller and B. Trumbore, "Fast, minimum storage
// ray-triangle intersection", Journal of Graphics Tools 2(1), 1997.
double distance_to(const Point& from, const Direction& way, const Point& a, const Point& b, const Point& c) {
  const Direction ab = b - a, ac = c - a, across = cross(way, ac);
  const double det = dot(ab, across);
  if (std::abs(det) < 1e-12) {
    return -1;
  }
  const Direction off = from - a, turned = cross(off, ab);
  const double u = dot(off, across) / det, v = dot(way, turned) / det;
  return u < 0 || v < 0 || u + v > 1 ? -1 : dot(ac, turned) / det;
}

// A ribbon along points of a plane.
void add_ribbon(const std::vector<Point>& line, const Direction& normal, double half_mm, std::vector<Point>& out) {
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    const Direction aside = half_mm * geometry::unit(cross(normal, line[i + 1] - line[i]));
    const Point a = line[i] + aside, b = line[i] + (-aside), c = line[i + 1] + (-aside), d = line[i + 1] + aside;
    out.insert(out.end(), {a, b, c, a, c, d});
  }
}

}  // namespace

Insides::Insides(const planner::plan::Plan& plan) : plan_(plan) {
  for (const planner::plan::PlanPart& part : plan.parts) {
    std::vector<Point>& own = triangles_.emplace_back();
    for (const Facet& facet : part.facets) {
      for (const geometry::Polygon& region : facet.regions) {
        const std::vector<Point> some = triangles_of(region, facet.normal);
        own.insert(own.end(), some.begin(), some.end());
      }
    }
  }
}

bool Insides::meets(planner::work::PartId part, const Point& from, const Direction& way) const {
  constexpr double kGap_mm = 1;  // nearer is a joint
  const std::vector<Point>& all = triangles_[part];
  for (std::size_t i = 0; i + 2 < all.size(); i += 3) {
    if (distance_to(from, way, all[i], all[i + 1], all[i + 2]) > kGap_mm) {
      return true;
    }
  }
  return false;
}

bool Insides::looks_inward(planner::work::PartId part, const Facet& facet) const {
  const Point from = spot_on(facet);
  for (planner::work::PartId other = 0; other < plan_.parts.size(); ++other) {
    if (other != part && meets_box(plan_.parts[other].bounds, from, facet.normal) &&
        meets(other, from, facet.normal)) {
      return true;
    }
  }
  return false;
}

std::vector<Point> show_marks(const planner::plan::PlanPart& part) {
  std::vector<Point> out;
  for (const planner::work::Face& face : part.show) {
    const Direction out_of = (face.positive ? 1.0 : -1.0) * geometry::kAxis[face.axis];
    const auto best = std::max_element(part.facets.begin(), part.facets.end(), [&](const Facet& a, const Facet& b) {
      return a.area_mm2 * dot(a.normal, out_of) < b.area_mm2 * dot(b.normal, out_of);
    });
    if (best == part.facets.end() || dot(best->normal, out_of) < 0.5) {
      continue;
    }
    const Direction grain = part.grain - dot(part.grain, best->normal) * best->normal;
    const geometry::Ring& outer = best->regions.front().outer;
    const Direction u = geometry::unit(length(grain) > 0.5 ? grain : outer[1] - outer[0]);
    const Direction v = cross(best->normal, u);
    const double size = std::min(model::reach_of({&*best, 1}, u).size(), model::reach_of({&*best, 1}, v).size());
    // Lifted off the wood, so that nothing flickers.
    const Point middle = spot_on(*best) + 0.5 * best->normal;
    std::vector<Point> line;
    for (const auto& [right, up] : std::initializer_list<std::pair<double, double>>{
             {-.7, -1}, {-.1, .1}, {.3, .65}, {.33, .9}, {.2, 1.1}, {0, 1.18}, {-.2, 1.1}, {-.33, .9}, {-.3, .65},
             {.1, .1}, {.7, -1}}) {
      line.push_back(middle + (0.14 * size * right) * u + (0.14 * size * up) * v);
    }
    add_ribbon(line, best->normal, 0.016 * size, out);
  }
  return out;
}

}  // namespace cli::pictures
