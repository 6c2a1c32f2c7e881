#include "cli/model/line_drawing.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "geometry/elementary.h"

namespace cli::model {
namespace {

using geometry::Direction;
using geometry::Facet;
using geometry::Point;
using geometry::Polygon;
using geometry::Ring;

// Two faces nearer than this along the line of sight count as one: drawings are read to 0.1 mm.
constexpr double kSameDepth_mm = 0.01;
constexpr double kFacing = 1e-6;

Cover cover_of(const Facet& facet, const Direction& offset, const View& view) {
  Cover cover;
  // n . p = d with p = u right + v up + w eye.
  const double n_eye = dot(facet.normal, view.eye);
  const double d = facet.offset_mm + dot(offset, facet.normal);
  cover.nearness0 = d / n_eye;
  cover.per_u = -dot(facet.normal, view.right) / n_eye;
  cover.per_v = -dot(facet.normal, view.up) / n_eye;
  const auto add = [&](const Ring& ring) {
    cover.rings.emplace_back();
    for (const Point& p : ring) {
      const Point2 q = view.at(p + offset);
      cover.rings.back().push_back(q);
      cover.u0 = std::min(cover.u0, q.u);
      cover.u1 = std::max(cover.u1, q.u);
      cover.v0 = std::min(cover.v0, q.v);
      cover.v1 = std::max(cover.v1, q.v);
    }
  };
  for (const Polygon& region : facet.regions) {
    add(region.outer);
    std::for_each(region.holes.begin(), region.holes.end(), add);
  }
  return cover;
}

// Even-odd rule over all rings together, so that holes are outside.
bool inside(const std::vector<std::vector<Point2>>& rings, Point2 p) {
  bool in = false;
  for (const auto& ring : rings) {
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
      const Point2 a = ring[i], b = ring[j];
      if ((a.v > p.v) != (b.v > p.v) && p.u < a.u + (p.v - a.v) / (b.v - a.v) * (b.u - a.u)) {
        in = !in;
      }
    }
  }
  return in;
}

Point2 between(Point2 a, Point2 b, double t) {
  return {a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)};
}

// Where the line a-b crosses the rings, as shares of its length, with 0 and 1.
std::vector<double> crossings(const std::vector<std::vector<Point2>>& rings, Point2 a, Point2 b) {
  std::vector<double> ts{0, 1};
  const double du = b.u - a.u, dv = b.v - a.v;
  for (const auto& ring : rings) {
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
      const double eu = ring[i].u - ring[j].u, ev = ring[i].v - ring[j].v;
      const double wu = ring[j].u - a.u, wv = ring[j].v - a.v;
      // Most edges lie on one side of the line: told without a division.
      const double side_j = wu * dv - wv * du, side_i = side_j + (eu * dv - ev * du);
      const double det = du * ev - dv * eu;
      if ((side_j > 0 && side_i > 0) || (side_j < 0 && side_i < 0) || std::abs(det) < 1e-12) {
        continue;
      }
      const double t = (wu * ev - wv * eu) / det, s = (wu * dv - wv * du) / det;
      if (t > 0 && t < 1 && s >= 0 && s <= 1) {
        ts.push_back(t);
      }
    }
  }
  std::sort(ts.begin(), ts.end());
  return ts;
}

struct Interval {
  double from, to;
};

// A line in the picture with the nearness of its ends.
struct SeenLine {
  Point2 a, b;
  double near_a, near_b;
};

// The stretches of the line that the facet covers.
void add_covered(const SeenLine& line, const Cover& cover, std::vector<Interval>& covered) {
  const auto outside = [](double p, double q, double lo, double hi) {
    return std::max(p, q) < lo || std::min(p, q) > hi;
  };
  if (outside(line.a.u, line.b.u, cover.u0, cover.u1) ||
      outside(line.a.v, line.b.v, cover.v0, cover.v1)) {
    return;
  }
  // How much nearer than the line the facet's plane is, at both ends; straight between them.
  const double ahead_a = cover.nearness(line.a) - line.near_a - kSameDepth_mm;
  const double ahead_b = cover.nearness(line.b) - line.near_b - kSameDepth_mm;
  if (ahead_a <= 0 && ahead_b <= 0) {
    return;
  }
  const double level = ahead_a / (ahead_a - ahead_b);  // where it is as near, if ends differ
  const double from = ahead_a > 0 ? 0 : level, to = ahead_b > 0 ? 1 : level;
  const std::vector<double> ts = crossings(cover.rings, line.a, line.b);
  for (std::size_t i = 0; i + 1 < ts.size(); ++i) {
    const double lo = std::max(ts[i], from), hi = std::min(ts[i + 1], to);
    if (hi > lo && inside(cover.rings, between(line.a, line.b, (lo + hi) / 2))) {
      covered.push_back({lo, hi});
    }
  }
}

void add_uncovered(const SeenLine& line, std::vector<Interval>& covered,
                   std::vector<Segment2>& pieces) {
  constexpr double kShortest_mm = 0.05;
  const double length = geometry::hypotenuse(line.b.u - line.a.u, line.b.v - line.a.v);
  std::sort(covered.begin(), covered.end(),
            [](const Interval& a, const Interval& b) { return a.from < b.from; });
  double at = 0;
  const auto keep = [&](double from, double to) {
    if ((to - from) * length > kShortest_mm) {
      pieces.push_back({between(line.a, line.b, from), between(line.a, line.b, to)});
    }
  };
  for (const Interval& hidden : covered) {
    keep(at, hidden.from);
    at = std::max(at, hidden.to);
  }
  keep(at, 1);
}

// A point as a key that forgives rounding.
using PointKey = std::tuple<long, long, long>;
PointKey key(const Point& p) {
  return {std::lround(p.x * 1e3), std::lround(p.y * 1e3), std::lround(p.z * 1e3)};
}

}  // namespace

View isometric_view() {
  return {geometry::unit({1, 1, 0}), geometry::unit({-1, 1, 2}), geometry::unit({1, -1, 1})};
}

View axis_view(int axis) {
  switch (axis) {
    case 0:
      return {{0, 1, 0}, {0, 0, 1}, {1, 0, 0}};
    case 1:
      return {{1, 0, 0}, {0, 0, 1}, {0, -1, 0}};
    default:
      return {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
  }
}

View view_along(const geometry::Direction& direction) {
  constexpr double kOnAxis = 0.999;
  if (std::abs(direction.x) > kOnAxis) {
    return axis_view(0);
  }
  if (std::abs(direction.y) > kOnAxis) {
    return axis_view(1);
  }
  if (std::abs(direction.z) > kOnAxis) {
    return axis_view(2);
  }
  const geometry::Direction eye = direction.y > 0 ? -direction : direction;
  const geometry::Direction sideways = cross(geometry::Direction{0, 0, 1}, eye);
  const geometry::Direction right = (1 / length(sideways)) * sideways;
  return {right, cross(eye, right), eye};
}

geometry::Extent reach_of(std::span<const geometry::Facet> facets, const geometry::Direction& d) {
  geometry::Extent all{1e300, -1e300};
  for (const geometry::Facet& facet : facets) {
    const geometry::Extent own = extent_along(facet.regions, d);
    all = {std::min(all.lo, own.lo), std::max(all.hi, own.hi)};
  }
  return all;
}

std::vector<Segment3> edges_of(const Body& body, const View& view) {
  std::vector<Segment3> edges;
  std::set<std::pair<PointKey, PointKey>> known;
  const auto add = [&](const Ring& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const Point a = ring[i] + body.offset, b = ring[(i + 1) % ring.size()] + body.offset;
      if (known.insert(std::minmax({key(a), key(b)})).second) {
        edges.push_back({a, b});
      }
    }
  };
  for (const Facet& facet : body.facets) {
    if (dot(facet.normal, view.eye) <= kFacing) {
      continue;
    }
    for (const Polygon& region : facet.regions) {
      add(region.outer);
      std::for_each(region.holes.begin(), region.holes.end(), add);
    }
  }
  return edges;
}

std::vector<Segment3> hatching_of(const std::vector<Polygon>& regions, const Direction& normal,
                                  const Direction& along, double spacing_mm) {
  std::vector<Segment3> lines;
  const Direction across = cross(normal, along);
  const Direction run =
      geometry::unit({along.x + across.x, along.y + across.y, along.z + across.z});
  // In the plane: u along the lines, v across them.
  const View plane{run, cross(normal, run), normal};
  for (const Polygon& region : regions) {
    const Facet facet{normal, dot(region.outer.front(), normal), {region}, 0};
    const Cover cover = cover_of(facet, {}, plane);
    const auto first = std::lround(std::ceil(cover.v0 / spacing_mm));
    for (long k = first; static_cast<double>(k) * spacing_mm < cover.v1; ++k) {
      const double v = static_cast<double>(k) * spacing_mm;
      const Point2 a{cover.u0 - 1, v}, b{cover.u1 + 1, v};
      const std::vector<double> ts = crossings(cover.rings, a, b);
      for (std::size_t i = 0; i + 1 < ts.size(); ++i) {
        const double lo = a.u + ts[i] * (b.u - a.u), hi = a.u + ts[i + 1] * (b.u - a.u);
        if (hi - lo > 1e-6 && inside(cover.rings, {(lo + hi) / 2, v})) {
          const auto in_space = [&](double u) {
            return Point{} + u * plane.right + v * plane.up + facet.offset_mm * normal;
          };
          lines.push_back({in_space(lo), in_space(hi)});
        }
      }
    }
  }
  return lines;
}

Scene::Scene(std::span<const Body> bodies, const View& view) : view_(view) {
  for (std::size_t i = 0; i < bodies.size(); ++i) {
    for (const Facet& facet : bodies[i].facets) {
      if (dot(facet.normal, view.eye) > kFacing) {
        covers_.push_back(cover_of(facet, bodies[i].offset, view));
        covers_.back().body = i;
      }
    }
  }
  constexpr std::size_t kSlabs = 64;
  double high = -1e300;
  low_ = 1e300;
  for (const Cover& cover : covers_) {
    low_ = std::min(low_, cover.v0);
    high = std::max(high, cover.v1);
  }
  slabs_.resize(kSlabs);
  slab_mm_ = std::max(1e-6, (high - low_) / kSlabs);
  for (std::size_t c = 0; c < covers_.size(); ++c) {
    for (std::size_t s = slab_of(covers_[c].v0); s <= slab_of(covers_[c].v1); ++s) {
      slabs_[s].push_back(c);
    }
  }
}

std::size_t Scene::slab_of(double v) const {
  const double last = static_cast<double>(slabs_.size() - 1);
  return static_cast<std::size_t>(std::clamp(std::floor((v - low_) / slab_mm_), 0.0, last));
}

std::vector<Segment2> Scene::visible(std::span<const Segment3> lines,
                                     std::optional<std::size_t> without) const {
  std::vector<Segment2> pieces;
  std::vector<Interval> covered;
  for (const Segment3& line : lines) {
    const SeenLine seen{view_.at(line.a), view_.at(line.b), view_.nearness(line.a),
                        view_.nearness(line.b)};
    covered.clear();
    const std::size_t s0 = slab_of(std::min(seen.a.v, seen.b.v));
    const std::size_t s1 = slab_of(std::max(seen.a.v, seen.b.v));
    const auto cover_with = [&](const Cover& cover) {
      if (cover.body != without) {
        add_covered(seen, cover, covered);
      }
    };
    constexpr std::size_t kFew = 3;
    if (s1 - s0 < kFew) {
      // A cover in two slabs covers the same stretch twice, which changes nothing.
      for (std::size_t s = s0; s <= s1; ++s) {
        std::for_each(slabs_[s].begin(), slabs_[s].end(),
                      [&](std::size_t c) { cover_with(covers_[c]); });
      }
    } else {
      std::for_each(covers_.begin(), covers_.end(), cover_with);
    }
    add_uncovered(seen, covered, pieces);
  }
  return pieces;
}

}  // namespace cli::model
