#include "planner/clamps/bodies/clamp_bodies.h"

#include <algorithm>
#include <cmath>

namespace planner::clamps::bodies {
namespace {

using geometry::Box;
using geometry::Direction;
using geometry::Point;

constexpr double kFinger_mm = 3;
constexpr int kPasses = 8;

struct Span {
  double lo = 0, hi = 0;
};

Point corner(const StandingClamp& c, const Direction& side, double along, double out,
             double beside) {
  return c.low + along * c.axis + out * side + beside * cross(c.axis, side);
}

// Around the box that is `along` the axis, `out` towards the bar and `half` to either hand.
Box around(const StandingClamp& c, const Direction& side, Span along, Span out, double half) {
  Box box{corner(c, side, along.lo, out.lo, -half), corner(c, side, along.lo, out.lo, -half)};
  for (const double a : {along.lo, along.hi}) {
    for (const double o : {out.lo, out.hi}) {
      for (const double b : {-half, half}) {
        const Point p = corner(c, side, a, o, b);
        box.lo = {std::min(box.lo.x, p.x), std::min(box.lo.y, p.y), std::min(box.lo.z, p.z)};
        box.hi = {std::max(box.hi.x, p.x), std::max(box.hi.y, p.y), std::max(box.hi.z, p.z)};
      }
    }
  }
  return box;
}

bool overlap(const Box& a, const Box& b) {
  for (std::size_t i = 0; i < 3; ++i) {
    if (a.lo[i] > b.hi[i] + kFinger_mm - 1e-9 || b.lo[i] > a.hi[i] + kFinger_mm - 1e-9) {
      return false;
    }
  }
  return true;
}

}  // namespace

StandingClamp standing_clamp(const plan::PlannedClamp& clamp, const work::Shop& shop) {
  const double sloped = std::max(clamp.wedge[0].thick_mm, clamp.wedge[1].thick_mm);
  const double low = std::max(clamp.under_low_jaw_mm(), sloped),
               high = std::max(clamp.under_high_jaw_mm(), sloped);
  StandingClamp out;
  out.kind = tables::find_clamp_kind(clamp.kind);
  out.axis = clamp.axis;
  out.low = clamp.at + (-low) * clamp.axis;
  out.between_mm = clamp.span_mm + low + high;
  out.throat_mm = clamp.owned           ? shop.clamps[*clamp.owned].throat.mm()
                  : out.kind->throat_mm ? out.kind->throat_mm->lo
                                        : 0;
  return out;
}

std::array<Box, 3> body_of(const StandingClamp& c, const Direction& side) {
  const tables::ClampKind& kind = *c.kind;
  const double half_jaw = kind.pad_width_mm / 2;
  const Span arm{-kind.pad_height_mm / 2, c.throat_mm + kind.bar_depth_mm};
  const Span bar{c.throat_mm, c.throat_mm + kind.bar_depth_mm};
  const double end = std::max(c.between_mm, c.bar_mm) + kind.head_mm;
  return {around(c, side, {-kind.fixed_jaw_mm, end}, bar, kind.bar_width_mm / 2),
          around(c, side, {-kind.fixed_jaw_mm, 0}, arm, half_jaw),
          around(c, side, {c.between_mm, c.between_mm + kind.head_mm}, arm, half_jaw)};
}

bool bodies_clash(const std::array<Box, 3>& a, const std::array<Box, 3>& b) {
  return std::any_of(a.begin(), a.end(), [&](const Box& one) {
    return std::any_of(b.begin(), b.end(), [&](const Box& other) { return overlap(one, other); });
  });
}

BarSides choose_bar_sides(std::span<const StandingClamp> clamps) {
  std::vector<std::vector<std::array<Box, 3>>> bodies;  // of each clamp on each side
  for (const StandingClamp& c : clamps) {
    bodies.emplace_back();
    for (int s = 0; s < c.side_count; ++s) {
      bodies.back().push_back(body_of(c, c.sides[static_cast<std::size_t>(s)]));
    }
  }
  BarSides out;
  out.side.assign(clamps.size(), 0);
  const auto clashes = [&](std::size_t i, std::size_t side) {
    int count = 0;
    for (std::size_t j = 0; j < clamps.size(); ++j) {
      count += j != i && bodies_clash(bodies[i][side], bodies[j][out.side[j]]) ? 1 : 0;
    }
    return count;
  };
  bool changed = true;
  for (int pass = 0; pass < kPasses && changed; ++pass) {
    changed = false;
    for (std::size_t i = 0; i < clamps.size(); ++i) {
      std::size_t best = out.side[i];
      int fewest = clashes(i, best);
      for (std::size_t s = 0; s < bodies[i].size() && fewest > 0; ++s) {
        const int count = clashes(i, s);
        if (count < fewest) {
          fewest = count;
          best = s;
        }
      }
      changed |= best != out.side[i];
      out.side[i] = best;
    }
  }
  for (std::size_t i = 0; i < clamps.size(); ++i) {
    out.in_the_way.push_back(i);
    for (std::size_t j = 0; j < clamps.size(); ++j) {
      if (i != j && bodies_clash(bodies[i][out.side[i]], bodies[j][out.side[j]])) {
        out.in_the_way[i] = out.in_the_way[i] == i ? j : out.in_the_way[i];
        out.clashes += i < j ? 1 : 0;
      }
    }
  }
  return out;
}

}  // namespace planner::clamps::bodies
