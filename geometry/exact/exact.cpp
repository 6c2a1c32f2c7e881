#include "geometry/exact/exact.h"

namespace geometry {

Rational ExactPlane::height(const ExactPoint& p) const {
  Rational h = normal[0] * p.x() + normal[1] * p.y() + normal[2] * p.z() - offset;
  return sign > 0 ? h : Rational(-h);
}

Direction ExactPlane::unit_normal() const {
  return unit(
      {sign * to_double(normal[0]), sign * to_double(normal[1]), sign * to_double(normal[2])});
}

double ExactPlane::stretch() const {
  return std::sqrt(
      to_double(normal[0] * normal[0] + normal[1] * normal[1] + normal[2] * normal[2]));
}

ExactPlane make_plane(const std::array<Rational, 3>& outward, const Rational& offset) {
  std::size_t axis = 0;
  for (const std::size_t k : {std::size_t{1}, std::size_t{2}}) {
    if (CGAL::abs(outward[k]) > CGAL::abs(outward[axis])) {
      axis = k;
    }
  }
  const Rational largest = outward[axis];
  ExactPlane plane;
  plane.axis = static_cast<int>(axis);
  plane.sign = largest > 0 ? 1 : -1;
  for (std::size_t k = 0; k < 3; ++k) {
    plane.normal[k] = outward[k] / largest;
  }
  plane.offset = offset / largest;
  return plane;
}

ExactPlane lattice_plane(int axis, int sign, Nm offset) {
  ExactPlane plane;
  plane.normal[static_cast<std::size_t>(axis)] = 1;
  plane.offset = Rational(offset);
  plane.axis = axis;
  plane.sign = sign;
  return plane;
}

namespace {

int compare_planes(const ExactPlane& a, const ExactPlane& b) {
  if (a.axis != b.axis) {
    return a.axis < b.axis ? -1 : 1;
  }
  for (std::size_t k = 0; k < 3; ++k) {
    if (a.normal[k] != b.normal[k]) {
      return a.normal[k] < b.normal[k] ? -1 : 1;
    }
  }
  return a.offset == b.offset ? 0 : a.offset < b.offset ? -1 : 1;
}

}  // namespace

bool operator<(const ExactPlane& a, const ExactPlane& b) {
  const int c = compare_planes(a, b);
  return c < 0 || (c == 0 && a.sign > b.sign);
}

bool same_plane(const ExactPlane& a, const ExactPlane& b) {
  return compare_planes(a, b) == 0;
}

ExactPoint lift(const ExactPlane& plane, const FlatPoint<Rational>& p) {
  const auto k = static_cast<std::size_t>(plane.axis);
  const auto u = static_cast<std::size_t>(u_axis(plane.axis));
  const auto v = static_cast<std::size_t>(v_axis(plane.axis));
  std::array<Rational, 3> xyz;
  xyz[u] = p.u;
  xyz[v] = p.v;
  xyz[k] = plane.offset - plane.normal[u] * p.u - plane.normal[v] * p.v;
  return {xyz[0], xyz[1], xyz[2]};
}

FlatPoint<Rational> drop(const ExactPoint& p, int axis) {
  return {p[u_axis(axis)], p[v_axis(axis)]};
}

}  // namespace geometry
