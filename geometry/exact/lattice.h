// Axis-aligned boxes and rectangles on the nanometre lattice: where nothing is oblique, every exact
// result is a handful of integer comparisons. For geometry/*.cpp only.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "geometry/vector.h"

namespace geometry {

using Nm = std::int64_t;
// 30 m squared in nm2 overflows 64 bits; 30 m cubed in nm3 needs 105.
__extension__ typedef __int128 Int128;  // NOLINT(modernize-use-using): __extension__ wants it

struct Cuboid {
  std::array<Nm, 3> lo, hi;
};

Cuboid to_cuboid(const LatticeBox& box);
// True where the interiors meet.
bool overlapping(const Cuboid& a, const Cuboid& b);
Int128 volume_nm3(const Cuboid& a);
// Appends `a` without `tool` to `out`, as disjoint boxes.
void subtract(const Cuboid& a, const Cuboid& tool, std::vector<Cuboid>& out);

// The same for many tools in a row.
void subtract(const Cuboid& a, const std::vector<Cuboid>& tools, std::vector<Cuboid>& out);

// A rectangle in a plane across `axis`: u is the next axis, v the one after (x, y, z in a circle),
// so that u, v and the axis are right-handed.
struct Rect {
  Nm u0, v0, u1, v1;
};

inline int u_axis(int axis) {
  return (axis + 1) % 3;
}
inline int v_axis(int axis) {
  return (axis + 2) % 3;
}
Rect face_of(const Cuboid& a, int axis);

// The shared rectangle where it has an area.
std::optional<Rect> intersection(const Rect& a, const Rect& b);
// Appends `a` without `b` to `out`, as disjoint rectangles. True where b took something off.
bool subtract(const Rect& a, const Rect& b, std::vector<Rect>& out);
Int128 area_nm2(const Rect& a);

// mm to the nearest nanometre.
Nm to_nm(double mm);

}  // namespace geometry
