#include "geometry/turn.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>
#include <utility>

#include "geometry/elementary.h"
#include "geometry/exact/body.h"

namespace geometry {
namespace {

// The simplest fraction within 2e-13 of x, by continued fractions: some 22 bits above and below,
// so that exact coordinates of a turned board stay short. |x| <= 1.
Rational simple_fraction(double x) {
  constexpr double kWithin = 2e-13;
  std::int64_t p = 1, q = 0, p_before = 0, q_before = 1;
  double rest = x;
  for (;;) {
    const double whole = std::floor(rest);
    const auto n = static_cast<std::int64_t>(whole);
    p_before = std::exchange(p, n * p + p_before);
    q_before = std::exchange(q, n * q + q_before);
    const double off = std::abs(x - static_cast<double>(p) / static_cast<double>(q));
    if (off <= kWithin) {
      return Rational(p) / Rational(q);
    }
    rest = 1 / (rest - whole);
  }
}

// A turn about an axis through a point, with an exactly orthogonal matrix: by quarters, then by
// t = tan(half the rest), cos = (1 - t2) / (1 + t2), sin = 2 t / (1 + t2).
struct RationalTurn {
  int axis;
  std::array<Rational, 3> about;
  Rational cosine = 1, sine = 0;

  explicit RationalTurn(const Turn& turn) : axis(turn.axis) {
    for (std::size_t k = 0; k < 3; ++k) {
      about[k] = Rational(turn.about[k].nanometres());
    }
    const double degrees = std::remainder(turn.angle_deg, 360.0);
    const double quarters = std::round(degrees / 90);
    const double rest = degrees - 90 * quarters;
    if (rest != 0) {
      const Rational t = simple_fraction(tangent(rest / 2 * std::numbers::pi / 180));
      const Rational t2 = t * t;
      cosine = (1 - t2) / (1 + t2);
      sine = 2 * t / (1 + t2);
    }
    for (int q = 0; q < (static_cast<int>(quarters) + 4) % 4; ++q) {
      const Rational c = cosine;
      cosine = -sine;
      sine = c;
    }
  }

  bool by_quarters() const { return cosine * sine == 0; }

  std::array<Rational, 3> direction(const std::array<Rational, 3>& d) const {
    const auto u = static_cast<std::size_t>(u_axis(axis)),
               v = static_cast<std::size_t>(v_axis(axis));
    std::array<Rational, 3> turned = d;
    turned[u] = cosine * d[u] - sine * d[v];
    turned[v] = sine * d[u] + cosine * d[v];
    return turned;
  }

  ExactPoint point(const ExactPoint& p) const {
    const std::array<Rational, 3> d =
        direction({p.x() - about[0], p.y() - about[1], p.z() - about[2]});
    return {d[0] + about[0], d[1] + about[1], d[2] + about[2]};
  }
};

Cell turned_cell(const Cell& cell, const RationalTurn& turn) {
  Cell result;
  for (const ExactPoint& p : cell.points) {
    result.add(turn.point(p));
  }
  for (const Cell::Face& face : cell.faces) {
    const ExactPlane& plane = face.plane;
    std::array<Rational, 3> outward;
    for (std::size_t k = 0; k < 3; ++k) {
      outward[k] = plane.sign * plane.normal[k];
    }
    outward = turn.direction(outward);
    const ExactPoint& on = result.points[static_cast<std::size_t>(face.loop.front())];
    const Rational offset = outward[0] * on.x() + outward[1] * on.y() + outward[2] * on.z();
    result.faces.push_back({make_plane(outward, offset), face.loop});
  }
  return result;
}

// REQUIRES: turn.by_quarters().
Cuboid turned_box(const Cuboid& box, const Turn& turn, const RationalTurn& exact) {
  const auto u = static_cast<std::size_t>(u_axis(turn.axis)),
             v = static_cast<std::size_t>(v_axis(turn.axis));
  const Nm c = exact.cosine > 0 ? 1 : exact.cosine < 0 ? -1 : 0;
  const Nm s = exact.sine > 0 ? 1 : exact.sine < 0 ? -1 : 0;
  const Nm au = turn.about[u].nanometres(), av = turn.about[v].nanometres();
  const auto place = [&](Nm pu, Nm pv) {
    return std::pair{au + c * (pu - au) - s * (pv - av), av + s * (pu - au) + c * (pv - av)};
  };
  const auto [u0, v0] = place(box.lo[u], box.lo[v]);
  const auto [u1, v1] = place(box.hi[u], box.hi[v]);
  Cuboid result = box;
  std::tie(result.lo[u], result.hi[u]) = std::minmax(u0, u1);
  std::tie(result.lo[v], result.hi[v]) = std::minmax(v0, v1);
  return result;
}

}  // namespace

Solid turned(const Solid& solid, const Turn& turn) {
  const RationalTurn exact(turn);
  const Cells& all = solid.body().cells;
  Cells result;
  for (const Cuboid& box : all.boxes) {
    if (exact.by_quarters()) {
      result.boxes.push_back(turned_box(box, turn, exact));
    } else {
      result.cells.push_back(turned_cell(to_cell(box), exact));
    }
  }
  for (const Cell& cell : all.cells) {
    result.cells.push_back(turned_cell(cell, exact));
  }
  return Solid(std::make_shared<Solid::Body>(std::move(result)));
}

}  // namespace geometry
