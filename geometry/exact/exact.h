// The exact kernel: rational coordinates in nanometres. The only header that includes CGAL; for
// geometry/*.cpp only, and only for what is oblique (lattice.h has the rest).
#pragma once
#include <CGAL/Gmpq.h>
#include <CGAL/Simple_cartesian.h>

#include "geometry/exact/lattice.h"
#include "geometry/exact/outline.h"

namespace geometry {

using Rational = CGAL::Gmpq;
using Kernel = CGAL::Simple_cartesian<Rational>;
using ExactPoint = Kernel::Point_3;

// More than a double of a coordinate up to 30 m can be off, so that boxes rounded by it enclose.
inline constexpr double kRoundingNm = 1e-4;

// The nearest double; of two equally near, the one with the even last bit.
double to_double(const Rational& q);
// A whole number wider than the exact kernel's own constructors take.
Rational to_rational(Int128 n);
// Nanometres to mm, rounded once.
inline double to_mm(const Rational& nm) {
  return to_double(nm / 1'000'000);
}
inline Point to_mm(const ExactPoint& p) {
  return {to_mm(p.x()), to_mm(p.y()), to_mm(p.z())};
}

// n . p = offset, scaled so that the normal's largest component (the first of equals), `axis`, is
// 1: two faces lie in one plane exactly where these are equal.
struct ExactPlane {
  std::array<Rational, 3> normal;
  Rational offset;
  int axis = 0;
  int sign = 1;  // +1 where the outward normal is `normal`, -1 where it is its opposite

  // Negative below (inside), positive above, seen along the outward normal. In nm times |normal|.
  Rational height(const ExactPoint& p) const;
  Direction unit_normal() const;  // outward
  double stretch() const;         // |normal|: an area in the plane against its shadow across `axis`
};
ExactPlane make_plane(const std::array<Rational, 3>& outward, const Rational& offset);
ExactPlane lattice_plane(int axis, int sign, Nm offset);
// By plane alone, then those that look up its normal first.
bool operator<(const ExactPlane& a, const ExactPlane& b);
bool same_plane(const ExactPlane& a, const ExactPlane& b);  // whichever way they look

ExactPoint lift(const ExactPlane& plane, const FlatPoint<Rational>& p);
FlatPoint<Rational> drop(const ExactPoint& p, int axis);

}  // namespace geometry
