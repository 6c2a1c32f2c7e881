#include "geometry/elementary.h"

#include <numbers>

namespace geometry {
namespace {

// A constant and what its double lacks of it.
struct Split {
  double high, low;
};
constexpr Split kHalfPi{0x1.921fb54442d18p+0, 0x1.1a62633145c07p-54};
constexpr Split kQuarterPi{0x1.921fb54442d18p-1, 0x1.1a62633145c07p-55};
// Its first 33 bits, so that a multiple of them is exact, and the rest.
constexpr Split kHalfPiShort{0x1.921fb544p+0, 0x1.0b4611a626331p-34};
constexpr Split kLn2Short{0x1.62e42feep-1, 0x1.a39ef35793c76p-33};

// What is left of the angle, at most an eighth of a turn, beyond `quarters` quarters of one.
struct Reduced {
  double rest;
  int quarters;  // 0 to 3
};
Reduced reduced(double x) {
  const double n = std::nearbyint(x / kHalfPi.high);
  const double rest = (x - n * kHalfPiShort.high) - n * kHalfPiShort.low;
  return {rest, static_cast<int>(static_cast<long long>(n) & 3)};
}

// Taylor's series, as far as an eighth of a turn needs them.
double near_sine(double x) {
  const double z = x * x;
  double sum = 0;
  for (int n = 18; n >= 2; n -= 2) {
    sum = -z / (n * (n + 1)) * (1 + sum);
  }
  return x + x * sum;
}
double near_cosine(double x) {
  const double z = x * x, half = z / 2;
  double sum = 0;
  for (int n = 19; n >= 3; n -= 2) {
    sum = -z / (n * (n + 1)) * (1 + sum);
  }
  // 1 - half - half * sum, with what the first difference loses.
  const double first = 1 - half;
  return first + (((1 - first) - half) - half * sum);
}

double near_arc_tangent(double x) {
  const double z = x * x;
  double sum = 0;
  for (int n = 45; n >= 3; n -= 2) {
    sum = z * (1.0 / n - sum);
  }
  return x - x * sum;
}

}  // namespace

double sine(double x) {
  const Reduced r = reduced(x);
  const double value = r.quarters % 2 == 0 ? near_sine(r.rest) : near_cosine(r.rest);
  return r.quarters < 2 ? value : -value;
}

double cosine(double x) {
  const Reduced r = reduced(x);
  const double value = r.quarters % 2 == 0 ? near_cosine(r.rest) : near_sine(r.rest);
  return r.quarters == 1 || r.quarters == 2 ? -value : value;
}

double tangent(double x) {
  return sine(x) / cosine(x);
}

double arc_tangent(double t) {
  const double x = std::abs(t);
  double value = 0;
  if (x < 0.4375) {
    value = near_arc_tangent(x);
  } else if (x < 2.4375) {  // from an eighth of a turn
    value = kQuarterPi.high + (near_arc_tangent((x - 1) / (x + 1)) + kQuarterPi.low);
  } else {
    value = kHalfPi.high - (near_arc_tangent(1 / x) - kHalfPi.low);
  }
  return std::copysign(value, t);
}

double arc_tangent(double y, double x) {
  if (x == 0 && y == 0) {
    return std::signbit(x) ? std::copysign(std::numbers::pi, y) : y;
  }
  if (std::abs(y) > std::abs(x)) {
    const double beyond = arc_tangent(x / std::abs(y));
    return std::copysign(kHalfPi.high - (beyond - kHalfPi.low), y);
  }
  const double near = arc_tangent(std::abs(y / x));
  return std::copysign(std::signbit(x) ? 2 * kHalfPi.high - (near - 2 * kHalfPi.low) : near, y);
}

double arc_sine(double s) {
  return arc_tangent(s, std::sqrt((1 - s) * (1 + s)));
}
double arc_cosine(double c) {
  return arc_tangent(std::sqrt((1 - c) * (1 + c)), c);
}

double exponential(double x) {
  const double n = std::nearbyint(x / std::numbers::ln2);
  const double rest = (x - n * kLn2Short.high) - n * kLn2Short.low;
  double sum = 0;
  for (int k = 16; k >= 1; --k) {
    sum = rest / k * (1 + sum);
  }
  return std::ldexp(1 + sum, static_cast<int>(n));
}

double logarithm(double x) {
  int exponent = 0;
  double m = std::frexp(x, &exponent);  // from a half to 1
  if (m < std::numbers::sqrt2 / 2) {
    m *= 2;
    --exponent;
  }
  const double s = (m - 1) / (m + 1), z = s * s;
  double sum = 0;
  for (int n = 25; n >= 3; n -= 2) {
    sum = z * (1.0 / n + sum);
  }
  return exponent * kLn2Short.high + (2 * (s + s * sum) + exponent * kLn2Short.low);
}

double power(double base, double exponent) {
  return exponential(exponent * logarithm(base));
}

}  // namespace geometry
