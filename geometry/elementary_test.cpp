#include "geometry/elementary.h"

#include <algorithm>
#include <numbers>
#include <random>

#include <doctest/doctest.h>

namespace geometry {
namespace {

// Last places between our value and the library's.
double places(double ours, double its) {
  const double place = std::nextafter(std::abs(its), HUGE_VAL) - std::abs(its);
  return std::abs(ours - its) / place;
}

TEST_SUITE("geometry/elementary") {
  // Outside, library: the C library's sin, cos, tan, atan, asin, acos, hypot, pow and exp
  TEST_CASE("within three last places of the library's, wherever work has its angles and sizes") {
    std::mt19937_64 dice(7);
    const auto between = [&](double lo, double hi) {
      return lo + (hi - lo) * (static_cast<double>(dice() >> 11) / 0x1p53);
    };
    for (int i = 0; i < 100'000; ++i) {
      const double a = between(-20, 20), x = between(-3000, 3000), y = between(-3000, 3000);
      const double s = between(-1, 1), p = between(1e-6, 1e6), e = between(-4, 4);
      CHECK(std::abs(sine(a) - std::sin(a)) < 3e-16);
      CHECK(std::abs(cosine(a) - std::cos(a)) < 3e-16);
      CHECK(places(tangent(a / 20), std::tan(a / 20)) <= 3);
      CHECK(places(arc_tangent(x), std::atan(x)) <= 2);
      CHECK(places(arc_tangent(s), std::atan(s)) <= 3);
      CHECK(places(arc_tangent(y, x), std::atan2(y, x)) <= 3);
      CHECK(std::abs(arc_sine(s) - std::asin(s)) < 1e-15);
      CHECK(std::abs(arc_cosine(s) - std::acos(s)) < 1e-15);
      CHECK(places(hypotenuse(x, y), std::hypot(x, y)) <= 2);
      CHECK(std::abs(power(p, e) / std::pow(p, e) - 1) < 2e-14);
      CHECK(std::abs(exponential(e) / std::exp(e) - 1) < 1e-15);
    }
  }

  TEST_CASE("the directions of a rule and a square") {
    constexpr double kPi = std::numbers::pi;
    CHECK(sine(0) == 0);
    CHECK(cosine(0) == 1);
    CHECK(sine(kPi / 2) == 1);
    CHECK(std::abs(cosine(kPi / 2)) < 1e-16);
    CHECK(arc_tangent(1, 0) == kPi / 2);
    CHECK(arc_tangent(0, -1) == kPi);
    CHECK(arc_tangent(-0.0, -1) == -kPi);
    CHECK(arc_tangent(1, 1) == kPi / 4);
    CHECK(arc_tangent(0, 0) == 0);
    CHECK(arc_cosine(-1) == kPi);
    CHECK(power(2, 10) == doctest::Approx(1024));
  }
}

}  // namespace
}  // namespace geometry
