#include "twins/polygon_set_twin.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <CGAL/Boolean_set_operations_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/Polygon_set_2.h>

#include "twins/convex_sets.h"

namespace twins {
namespace {

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Number = Kernel::FT;
using P2 = Kernel::Point_2;
using P3 = Kernel::Point_3;
using V3 = Kernel::Vector_3;
using PolygonSet = CGAL::Polygon_set_2<Kernel>;
using Polygon2 = CGAL::Polygon_2<Kernel>;

V3 normal(const geometry::HalfSpace& h) {
  return V3(static_cast<double>(h.normal[0]), static_cast<double>(h.normal[1]),
            static_cast<double>(h.normal[2]));
}
P3 through(const geometry::HalfSpace& h) {
  return P3(static_cast<double>(h.through[0].nanometres()),
            static_cast<double>(h.through[1].nanometres()),
            static_cast<double>(h.through[2].nanometres()));
}

// A plane with coordinates s, t in it: o + s e1 + t e2.
struct Frame {
  P3 o;
  V3 n, e1, e2;

  explicit Frame(const geometry::HalfSpace& h) : o(through(h)), n(normal(h)) {
    e1 = CGAL::cross_product(n, h.normal[0] != 0 ? V3(0, 1, 0) : V3(1, 0, 0));
    e2 = CGAL::cross_product(n, e1);
  }
};

// The section of a convex set just over (side +1) or just under (-1) the frame's plane; empty where
// there is none.
std::vector<P2> section(const ConvexSet& set, const Frame& frame, int side) {
  constexpr double kFar = 1e10;
  std::vector<P2> polygon = {P2(-kFar, -kFar), P2(kFar, -kFar), P2(kFar, kFar), P2(-kFar, kFar)};
  for (const geometry::HalfSpace& half : set) {
    const V3 n = normal(half);
    const Number c = n * (frame.o - through(half)), cs = n * frame.e1, ct = n * frame.e2;
    if (cs == 0 && ct == 0) {
      const bool inside = c != 0 ? c < 0 : side * (n * frame.n) < 0;
      if (!inside) {
        return {};
      }
      continue;
    }
    std::vector<P2> clipped;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const P2 &p = polygon[i], &q = polygon[(i + 1) % polygon.size()];
      const Number hp = c + cs * p.x() + ct * p.y(), hq = c + cs * q.x() + ct * q.y();
      if (hp <= 0) {
        clipped.push_back(p);
      }
      if ((hp < 0 && hq > 0) || (hp > 0 && hq < 0)) {
        clipped.push_back(p + hp / (hp - hq) * (q - p));
      }
    }
    polygon = std::move(clipped);
    Polygon2 shape(polygon.begin(), polygon.end());
    if (polygon.size() < 3 || shape.area() == 0) {
      return {};
    }
  }
  polygon.erase(std::unique(polygon.begin(), polygon.end()), polygon.end());
  return polygon;
}

PolygonSet section(const scenes::Recipe& recipe, const Frame& frame, int side) {
  PolygonSet set;
  const std::vector<P2> outer = section(kept(recipe), frame, side);
  if (outer.empty()) {
    return set;
  }
  set.insert(Polygon2(outer.begin(), outer.end()));
  for (const ConvexSet& tool : tools(recipe)) {
    const std::vector<P2> hole = section(tool, frame, side);
    if (!hole.empty()) {
      set.difference(Polygon2(hole.begin(), hole.end()));
    }
  }
  return set;
}

double area_mm2(const PolygonSet& set, const Frame& frame) {
  std::vector<CGAL::Polygon_with_holes_2<Kernel>> polygons;
  set.polygons_with_holes(std::back_inserter(polygons));
  Number sum = 0;
  for (const auto& polygon : polygons) {
    sum += polygon.outer_boundary().area();
    for (auto hole = polygon.holes_begin(); hole != polygon.holes_end(); ++hole) {
      sum += hole->area();  // clockwise, so negative
    }
  }
  const V3 unit_area = CGAL::cross_product(frame.e1, frame.e2);
  return CGAL::to_double(sum) * std::sqrt(CGAL::to_double(unit_area.squared_length())) / 1e12;
}

bool same_plane(const geometry::HalfSpace& a, const geometry::HalfSpace& b) {
  return CGAL::cross_product(normal(a), normal(b)) == CGAL::NULL_VECTOR &&
         normal(a) * (through(b) - through(a)) == 0;
}

std::vector<geometry::HalfSpace> planes(const scenes::Recipe& recipe) {
  std::vector<geometry::HalfSpace> all = kept(recipe);
  for (const ConvexSet& tool : tools(recipe)) {
    all.insert(all.end(), tool.begin(), tool.end());
  }
  std::vector<geometry::HalfSpace> distinct;
  for (const geometry::HalfSpace& h : all) {
    if (std::none_of(distinct.begin(), distinct.end(),
                     [&](const auto& other) { return same_plane(h, other); })) {
      distinct.push_back(h);
    }
  }
  return distinct;
}

}  // namespace

std::vector<double> contact_areas(const scenes::Recipe& a, const scenes::Recipe& b) {
  std::vector<double> areas;
  for (const geometry::HalfSpace& plane : planes(a)) {
    const Frame frame(plane);
    for (const int side : {-1, 1}) {
      PolygonSet shared = section(a, frame, side);
      shared.intersection(section(b, frame, -side));
      if (!shared.is_empty()) {
        areas.push_back(area_mm2(shared, frame));
      }
    }
  }
  std::sort(areas.rbegin(), areas.rend());
  return areas;
}

}  // namespace twins
