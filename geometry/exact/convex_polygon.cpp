#include "geometry/exact/convex_polygon.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <utility>

namespace geometry {
namespace {

using FlatPt = FlatPoint<Rational>;

bool bounds_overlap(const ConvexPolygon& a, const ConvexPolygon& b) {
  return a.u0 < b.u1 && b.u0 < a.u1 && a.v0 < b.v1 && b.v0 < a.v1;
}

Rational twice_area(const std::vector<FlatPt>& points) {
  return points.size() < 3 ? Rational(0) : outline_detail::twice_area(points);
}

using RoundedPt = FlatPoint<double>;

RoundedPt rounded(const FlatPt& p) {
  return {to_double(p.u), to_double(p.v)};
}

// Corners in both forms, side by side.
struct Corners {
  std::vector<FlatPt> exact;
  std::vector<RoundedPt> rounded;

  bool empty() const { return exact.empty(); }
  void add(const FlatPt& p, const RoundedPt& r) {
    exact.push_back(p);
    rounded.push_back(r);
  }
};

ConvexPolygon with_bounds(Corners corners) {
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  ConvexPolygon polygon{std::move(corners.exact),
                        std::move(corners.rounded),
                        kInfinity,
                        kInfinity,
                        -kInfinity,
                        -kInfinity};
  for (const RoundedPt& p : polygon.rounded) {
    polygon.u0 = std::min(polygon.u0, p.u - kRoundingNm);
    polygon.u1 = std::max(polygon.u1, p.u + kRoundingNm);
    polygon.v0 = std::min(polygon.v0, p.v - kRoundingNm);
    polygon.v1 = std::max(polygon.v1, p.v + kRoundingNm);
  }
  return polygon;
}

ConvexPolygon with_bounds(std::vector<FlatPt> points) {
  Corners corners{std::move(points), {}};
  for (const FlatPt& p : corners.exact) {
    corners.rounded.push_back(rounded(p));
  }
  return with_bounds(std::move(corners));
}

// A line through two corners of a polygon, from the i-th to the next.
struct Line {
  const FlatPt &from, &to;
  const RoundedPt &rounded_from, &rounded_to;

  Line(const ConvexPolygon& polygon, std::size_t i)
      : from(polygon.points[i]),
        to(polygon.points[(i + 1) % polygon.points.size()]),
        rounded_from(polygon.rounded[i]),
        rounded_to(polygon.rounded[(i + 1) % polygon.points.size()]) {}

  Rational height(const FlatPt& p) const { return outline_detail::cross(from, to, p); }

  // +1 left of the line, -1 right, 0 on it. Exact: doubles decide where they are clear, which is
  // down to 1e-3 nm at the sizes of a workshop.
  int side(const FlatPt& p, const RoundedPt& r) const {
    const double du = rounded_to.u - rounded_from.u, dv = rounded_to.v - rounded_from.v;
    const double pu = r.u - rounded_from.u, pv = r.v - rounded_from.v;
    const double c = du * pv - dv * pu;
    const double extent = std::abs(du) + std::abs(dv) + std::abs(pu) + std::abs(pv);
    // Each difference is out by less than 2 kRoundingNm, the products by a few parts in 1e16.
    const double doubt =
        4 * kRoundingNm * (extent + kRoundingNm) + 1e-15 * (std::abs(du * pv) + std::abs(dv * pu));
    if (c > doubt) {
      return 1;
    }
    if (c < -doubt) {
      return -1;
    }
    return p == from || p == to ? 0 : CGAL::sign(height(p));
  }
};

// What lies left and right of a line; empty where that has no area.
struct Sides {
  Corners left, right;
};

Sides split(Corners corners, const Line& line) {
  std::vector<int> side;
  bool any_left = false, any_right = false;
  for (std::size_t i = 0; i < corners.exact.size(); ++i) {
    side.push_back(line.side(corners.exact[i], corners.rounded[i]));
    any_left = any_left || side.back() > 0;
    any_right = any_right || side.back() < 0;
  }
  if (!any_right) {
    return {std::move(corners), {}};
  }
  if (!any_left) {
    return {{}, std::move(corners)};
  }
  Sides sides;
  for (std::size_t i = 0; i < corners.exact.size(); ++i) {
    const std::size_t j = (i + 1) % corners.exact.size();
    const FlatPt &a = corners.exact[i], &b = corners.exact[j];
    if (side[i] >= 0) {
      sides.left.add(a, corners.rounded[i]);
    }
    if (side[i] <= 0) {
      sides.right.add(a, corners.rounded[i]);
    }
    if (side[i] * side[j] < 0) {
      const Rational ha = line.height(a), t = ha / (ha - line.height(b));
      const FlatPt crossing{a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)};
      sides.left.add(crossing, rounded(crossing));
      sides.right.add(crossing, sides.left.rounded.back());
    }
  }
  return sides;
}

Corners corners_of(const ConvexPolygon& polygon) {
  return {polygon.points, polygon.rounded};
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
  Corners rest = corners_of(a);
  for (std::size_t i = 0; i < b.points.size(); ++i) {
    rest = split(std::move(rest), Line(b, i)).left;
    if (rest.empty()) {
      return std::nullopt;
    }
  }
  return with_bounds(std::move(rest));
}

bool subtract(ConvexPolygon a, const ConvexPolygon& b, std::vector<ConvexPolygon>& out) {
  if (!bounds_overlap(a, b)) {
    out.push_back(std::move(a));
    return false;
  }
  std::vector<ConvexPolygon> outside;
  Corners rest = corners_of(a);
  for (std::size_t i = 0; i < b.points.size(); ++i) {
    Sides sides = split(std::move(rest), Line(b, i));
    if (sides.left.empty()) {
      out.push_back(std::move(a));
      return false;
    }
    if (!sides.right.empty()) {
      outside.push_back(with_bounds(std::move(sides.right)));
    }
    rest = std::move(sides.left);
  }
  std::move(outside.begin(), outside.end(), std::back_inserter(out));
  return true;
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
