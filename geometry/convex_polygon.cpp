#include "geometry/convex_polygon.h"

#include <algorithm>
#include <limits>

namespace geometry {
namespace {

using FlatPt = FlatPoint<Rational>;

bool bounds_overlap(const ConvexPolygon& a, const ConvexPolygon& b) {
  return a.u0 < b.u1 && b.u0 < a.u1 && a.v0 < b.v1 && b.v0 < a.v1;
}

Rational twice_area(const std::vector<FlatPt>& points) {
  return points.size() < 3 ? Rational(0) : outline_detail::twice_area(points);
}

ConvexPolygon with_bounds(std::vector<FlatPt> points) {
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  ConvexPolygon polygon{std::move(points), kInfinity, kInfinity, -kInfinity, -kInfinity};
  for (const FlatPt& p : polygon.points) {
    const double u = to_double(p.u), v = to_double(p.v);
    polygon.u0 = std::min(polygon.u0, u - kRoundingNm);
    polygon.u1 = std::max(polygon.u1, u + kRoundingNm);
    polygon.v0 = std::min(polygon.v0, v - kRoundingNm);
    polygon.v1 = std::max(polygon.v1, v + kRoundingNm);
  }
  return polygon;
}

// What lies left and right of a line through two points; empty where that has no area.
struct Sides {
  std::vector<FlatPt> left, right;
};

Sides split(const std::vector<FlatPt>& points, const FlatPt& from, const FlatPt& to) {
  std::vector<Rational> heights;
  bool any_left = false, any_right = false;
  for (const FlatPt& p : points) {
    heights.push_back(outline_detail::cross(from, to, p));
    any_left = any_left || heights.back() > 0;
    any_right = any_right || heights.back() < 0;
  }
  if (!any_right) {
    return {points, {}};
  }
  if (!any_left) {
    return {{}, points};
  }
  Sides sides;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const std::size_t j = (i + 1) % points.size();
    const FlatPt &a = points[i], &b = points[j];
    if (heights[i] >= 0) {
      sides.left.push_back(a);
    }
    if (heights[i] <= 0) {
      sides.right.push_back(a);
    }
    if ((heights[i] > 0 && heights[j] < 0) || (heights[i] < 0 && heights[j] > 0)) {
      const Rational t = heights[i] / (heights[i] - heights[j]);
      const FlatPt crossing{a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)};
      sides.left.push_back(crossing);
      sides.right.push_back(crossing);
    }
  }
  return sides;
}

}  // namespace

ConvexPolygon make_polygon(std::vector<FlatPt> points) {
  if (twice_area(points) < 0) {
    std::reverse(points.begin(), points.end());
  }
  return with_bounds(std::move(points));
}

ConvexPolygon make_polygon(const Rect& r) {
  const Rational u0(r.u0), v0(r.v0), u1(r.u1), v1(r.v1);
  return with_bounds({{u0, v0}, {u1, v0}, {u1, v1}, {u0, v1}});
}

std::optional<ConvexPolygon> intersection(const ConvexPolygon& a, const ConvexPolygon& b) {
  if (!bounds_overlap(a, b)) {
    return std::nullopt;
  }
  std::vector<FlatPt> rest = a.points;
  for (std::size_t i = 0; i < b.points.size(); ++i) {
    rest = split(rest, b.points[i], b.points[(i + 1) % b.points.size()]).left;
    if (rest.empty()) {
      return std::nullopt;
    }
  }
  return with_bounds(std::move(rest));
}

void subtract(const ConvexPolygon& a, const ConvexPolygon& b, std::vector<ConvexPolygon>& out) {
  if (!intersection(a, b)) {
    out.push_back(a);
    return;
  }
  std::vector<FlatPt> rest = a.points;
  for (std::size_t i = 0; i < b.points.size() && !rest.empty(); ++i) {
    Sides sides = split(rest, b.points[i], b.points[(i + 1) % b.points.size()]);
    if (!sides.right.empty()) {
      out.push_back(with_bounds(std::move(sides.right)));
    }
    rest = std::move(sides.left);
  }
}

std::optional<ConvexPolygon> convex_hull(std::vector<FlatPt> points) {
  std::sort(points.begin(), points.end());
  points.erase(std::unique(points.begin(), points.end()), points.end());
  if (points.size() < 3) {
    return std::nullopt;
  }
  // Lower chain left to right, then the upper one back.
  std::vector<FlatPt> ring;
  const auto add = [&ring](const FlatPt& p, std::size_t kept) {
    while (ring.size() > kept &&
           outline_detail::cross(ring[ring.size() - 2], ring.back(), p) <= 0) {
      ring.pop_back();
    }
    ring.push_back(p);
  };
  for (const FlatPt& p : points) {
    add(p, 1);
  }
  const std::size_t lower = ring.size();
  for (auto p = points.rbegin() + 1; p != points.rend(); ++p) {
    add(*p, lower);
  }
  ring.pop_back();
  if (ring.size() < 3) {
    return std::nullopt;
  }
  return with_bounds(std::move(ring));
}

Rational area_nm2(const ConvexPolygon& a) {
  return twice_area(a.points) / 2;
}

}  // namespace geometry
