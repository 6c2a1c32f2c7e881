// Plain points, directions and boxes in millimetres, for everything downstream of the exact
// kernels.
#pragma once
#include <array>
#include <cmath>
#include <cstddef>

#include "geometry/length.h"

namespace geometry {

struct Point {
  double x = 0, y = 0, z = 0;
  double operator[](std::size_t i) const { return i == 0 ? x : i == 1 ? y : z; }
  friend bool operator==(const Point&, const Point&) = default;
};

// A unit vector unless its owner says otherwise.
struct Direction {
  double x = 0, y = 0, z = 0;
  double operator[](std::size_t i) const { return i == 0 ? x : i == 1 ? y : z; }
  friend bool operator==(const Direction&, const Direction&) = default;
};

struct Box {
  Point lo, hi;
};

// A box on the nanometre lattice. REQUIRES lo < hi on each axis where a volume is meant.
struct LatticeBox {
  std::array<Length, 3> lo, hi;
};

inline double dot(const Direction& a, const Direction& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
inline double dot(const Point& a, const Direction& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
inline Direction cross(const Direction& a, const Direction& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline Direction operator-(const Direction& a) {
  return {-a.x, -a.y, -a.z};
}
inline Direction operator-(const Point& a, const Point& b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}
inline Point operator+(const Point& a, const Direction& d) {
  return {a.x + d.x, a.y + d.y, a.z + d.z};
}
inline Direction operator+(const Direction& a, const Direction& b) {
  return {a.x + b.x, a.y + b.y, a.z + b.z};
}
inline Direction operator-(const Direction& a, const Direction& b) {
  return {a.x - b.x, a.y - b.y, a.z - b.z};
}
inline Direction operator*(double k, const Direction& d) {
  return {k * d.x, k * d.y, k * d.z};
}
inline double length(const Direction& a) {
  return std::sqrt(dot(a, a));
}
inline Direction unit(const Direction& a) {
  return (1.0 / length(a)) * a;
}

inline constexpr Direction kAxis[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};

}  // namespace geometry
