#include "geometry/crossing.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "geometry/exact/body.h"

namespace geometry {
namespace {

struct Stretch {
  double enter = 0, leave = 0;  // mm along the axis
};

// A line is asked about by four lines this far beside it: where all four are inside a solid, so is
// the line, even along a face that two cells of one solid share; along an outer face, some are not.
constexpr double kBesideMm = 1e-6;

// What of the line lies in the convex cell; empty when enter >= leave.
Stretch in_cell(const RoundedCell& cell, const Point& on_line, const Direction& axis) {
  Stretch s{-std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  for (const RoundedCell::Face& face : cell.faces) {
    const double slope = dot(face.normal, axis);
    const double room = face.offset_mm - dot(on_line, face.normal);
    // Slower than this the line does not leave the workshop while it crosses kBesideMm.
    constexpr double kAlong = 1e-12;
    if (std::abs(slope) < kAlong) {
      if (room <= 0) {
        return {0, 0};
      }
    } else if (slope > 0) {
      s.leave = std::min(s.leave, room / slope);
    } else {
      s.enter = std::max(s.enter, room / slope);
    }
  }
  return s;
}

// Whether the line comes near the box: most solids of a work are nowhere near it, nor
// most cells of a drawn one.
bool near_box(const Box& box, const Point& on_line, const Direction& axis) {
  constexpr double kNearMm = 1e-3, kAlong = 1e-12;
  double enter = -std::numeric_limits<double>::infinity(), leave = -enter;
  for (std::size_t i = 0; i < 3; ++i) {
    const double below = box.lo[i] - kNearMm - on_line[i], above = box.hi[i] + kNearMm - on_line[i];
    if (std::abs(axis[i]) < kAlong) {
      if (below > 0 || above < 0) {
        return false;
      }
    } else {
      enter = std::max(enter, std::min(below / axis[i], above / axis[i]));
      leave = std::min(leave, std::max(below / axis[i], above / axis[i]));
    }
  }
  return enter <= leave;
}

// Stretches in all cells of one solid, joined where cells touch.
std::vector<Stretch> in_solid(const std::vector<RoundedCell>& cells, const Point& on_line,
                              const Direction& axis) {
  std::vector<Stretch> parts;
  for (const RoundedCell& cell : cells) {
    const Stretch s = near_box(cell.box, on_line, axis) ? in_cell(cell, on_line, axis) : Stretch{};
    if (s.leave - s.enter > kBesideMm) {
      parts.push_back(s);
    }
  }
  std::sort(parts.begin(), parts.end(),
            [](const Stretch& a, const Stretch& b) { return a.enter < b.enter; });
  auto last = parts.begin();
  for (const Stretch& s : parts) {
    if (s.enter <= last->leave + kBesideMm) {
      last->leave = std::max(last->leave, s.leave);
    } else {
      *++last = s;
    }
  }
  parts.erase(parts.empty() ? last : last + 1, parts.end());
  return parts;
}

std::vector<Stretch> in_both(const std::vector<Stretch>& a, const std::vector<Stretch>& b) {
  std::vector<Stretch> both;
  for (const Stretch& s : a) {
    for (const Stretch& t : b) {
      const Stretch shared{std::max(s.enter, t.enter), std::min(s.leave, t.leave)};
      if (shared.leave - shared.enter > 3 * kBesideMm) {
        both.push_back(shared);
      }
    }
  }
  return both;
}

}  // namespace

std::vector<Crossing> crossings(std::span<const Solid> solids, const Point& on_line,
                                const Direction& axis) {
  const Direction& least = std::abs(axis.x) < 0.9 ? kAxis[0] : kAxis[1];
  const Direction u = unit(cross(axis, least)), v = cross(axis, u);
  // Measured from the origin's foot on the line, so that positions are those along the axis.
  const Point foot = on_line + (-dot(on_line, axis)) * axis;
  std::vector<Crossing> found;
  for (std::size_t i = 0; i < solids.size(); ++i) {
    if (!near_box(solids[i].body().bounds(), foot, axis)) {
      continue;
    }
    const std::vector<RoundedCell>& cells = solids[i].body().rounded();
    std::vector<Stretch> inside;
    for (const int corner : {0, 1, 2, 3}) {
      const double du = (corner & 1 ? 1 : -1) * kBesideMm, dv = (corner & 2 ? 1 : -1) * kBesideMm;
      std::vector<Stretch> one = in_solid(cells, foot + (du * u + dv * v), axis);
      inside = corner == 0 ? std::move(one) : in_both(inside, one);
      if (inside.empty()) {
        break;
      }
    }
    for (const Stretch& s : inside) {
      found.push_back({i, s.enter, s.leave});
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Crossing& a, const Crossing& b) { return a.enter_mm < b.enter_mm; });
  return found;
}

}  // namespace geometry
