#include "geometry/long_side.h"

#include <algorithm>
#include <limits>

namespace geometry {
namespace {

// Two sizes this close, relative to the larger, are equal: a square, or two rectangles as good.
constexpr double kSame = 1e-9;

Direction positive(const Direction& d) {
  // Rounding must not decide the sign: a component this small counts as none.
  constexpr double kNone = 1e-12;
  for (std::size_t k = 0; k < 3; ++k) {
    if (std::abs(d[k]) > kNone) {
      return d[k] > 0 ? d : -d;
    }
  }
  return d;
}

std::size_t main_axis(const Direction& d) {
  std::size_t axis = 0;
  for (const std::size_t k : {std::size_t{1}, std::size_t{2}}) {
    if (std::abs(d[k]) > std::abs(d[axis]) + kSame) {
      axis = k;
    }
  }
  return axis;
}

LongSide sides(const std::vector<Polygon>& regions, const Direction& one, const Direction& other) {
  const double a = extent_along(regions, one).size(), b = extent_along(regions, other).size();
  const bool square = std::abs(a - b) <= kSame * std::max(a, b);
  const bool first = square ? main_axis(one) <= main_axis(other) : a > b;
  return first ? LongSide{positive(one), a, b} : LongSide{positive(other), b, a};
}

}  // namespace

LongSide long_side(const std::vector<Polygon>& regions, const Direction& normal) {
  const std::size_t k = main_axis(normal);
  if (std::abs(normal[k]) == 1) {
    const Direction &u = kAxis[(k + 1) % 3], &v = kAxis[(k + 2) % 3];
    for (const Polygon& region : regions) {
      for (std::size_t i = 0; i < region.outer.size(); ++i) {
        const Direction edge = region.outer[(i + 1) % region.outer.size()] - region.outer[i];
        if (dot(edge, u) == 0 || dot(edge, v) == 0) {
          return sides(regions, u, v);
        }
      }
    }
  }
  LongSide best;
  double least = std::numeric_limits<double>::infinity();
  for (const Polygon& region : regions) {
    for (std::size_t i = 0; i < region.outer.size(); ++i) {
      const Direction edge = region.outer[(i + 1) % region.outer.size()] - region.outer[i];
      if (length(edge) == 0) {
        continue;
      }
      const Direction along = unit(edge);
      const LongSide candidate = sides(regions, along, cross(normal, along));
      const double area = candidate.length_mm * candidate.width_mm;
      if (area < least * (1 - kSame)) {
        least = area;
        best = candidate;
      }
    }
  }
  return best;
}

}  // namespace geometry
