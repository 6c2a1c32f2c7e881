#include "geometry/bearing.h"

#include <algorithm>
#include <numbers>
#include <optional>

#include "geometry/body.h"

namespace geometry {
namespace {

// The shadow of what of a box stands in front of a plane across an axis.
std::optional<Rect> shadow_in_front(const Cuboid& box, const LatticePlane& plane) {
  const auto k = static_cast<std::size_t>(plane.axis);
  const bool in_front = plane.sign > 0 ? box.hi[k] > plane.offset : box.lo[k] < plane.offset;
  return in_front ? std::optional(face_of(box, plane.axis)) : std::nullopt;
}

// The same for any cell and plane; the shadow falls at right angles to the plane.
std::optional<ConvexPolygon> shadow_in_front(const Cell& cell, const ExactPlane& plane) {
  std::optional<Cell> front = split(cell, plane).above;
  if (!front) {
    return std::nullopt;
  }
  const Rational squared = plane.normal[0] * plane.normal[0] + plane.normal[1] * plane.normal[1] +
                           plane.normal[2] * plane.normal[2];
  std::vector<FlatPoint<Rational>> flat;
  for (const ExactPoint& p : front->points) {
    const Rational t = plane.sign * plane.height(p) / squared;
    flat.push_back(drop(ExactPoint(p.x() - t * plane.normal[0], p.y() - t * plane.normal[1],
                                   p.z() - t * plane.normal[2]),
                        plane.axis));
  }
  return convex_hull(std::move(flat));
}

template <class Piece>
void take_out(const Piece& shadow, std::vector<Piece>& pieces) {
  std::vector<Piece> less;
  for (const Piece& piece : pieces) {
    subtract(piece, shadow, less);
  }
  pieces = std::move(less);
}

LatticeSheet free_part(LatticeSheet sheet, std::span<const Solid> solids) {
  for (const Solid& solid : solids) {
    for (const Cuboid& box : solid.body().cells.boxes) {
      if (const auto shadow = shadow_in_front(box, sheet.plane)) {
        take_out(*shadow, sheet.pieces);
      }
    }
  }
  return sheet;
}

bool reaches_above(const Box& box, const ExactPlane& plane) {
  const Direction n = plane.unit_normal();
  double top = 0;
  for (std::size_t k = 0; k < 3; ++k) {
    top += std::max(n[k] * box.lo[k], n[k] * box.hi[k]);
  }
  // Further than rounding: what only touches the plane is not in front of it.
  constexpr double kTouching = 1e-6;
  return top > offset_mm(plane) + kTouching;
}

ExactSheet free_part(ExactSheet sheet, std::span<const Solid> solids) {
  for (const Solid& solid : solids) {
    const Solid::Body& body = solid.body();
    if (is_empty(solid) || !reaches_above(body.bounds(), sheet.plane)) {
      continue;
    }
    for (std::size_t i = 0; i < body.cells.size() && !sheet.pieces.empty(); ++i) {
      if (!reaches_above(body.rounded()[i].box, sheet.plane)) {
        continue;
      }
      if (const auto shadow = shadow_in_front(exact_cell(body.cells, i), sheet.plane)) {
        take_out(*shadow, sheet.pieces);
      }
    }
  }
  return sheet;
}

template <class Sheet>
void add_free(const std::vector<Sheet>& sheets, std::size_t solid, std::span<const Solid> solids,
              const Direction& axis, double least_cosine, std::vector<BearingFace>& out) {
  for (const Sheet& sheet : sheets) {
    const Direction normal = unit_normal(sheet.plane);
    const double along = dot(normal, axis);
    if (std::abs(along) < least_cosine) {
      continue;
    }
    std::vector<Polygon> regions = regions_of(free_part(sheet, solids));
    if (!regions.empty()) {
      const double offset = (along > 0 ? 1 : -1) * offset_mm(sheet.plane);
      out.push_back({solid, normal, offset, std::move(regions)});
    }
  }
}

}  // namespace

std::vector<BearingFace> find_bearing_faces(std::span<const Solid> solids, const Direction& axis,
                                            const Tolerance& tolerance) {
  // Rounding of a unit vector must not shut out a face that is square to the axis.
  constexpr double kRounding = 1e-12;
  const double least_cosine =
      std::cos(tolerance.max_angle_deg * std::numbers::pi / 180) - kRounding;
  const bool lattice = std::all_of(solids.begin(), solids.end(),
                                   [](const Solid& s) { return s.body().cells.on_lattice(); });
  std::vector<BearingFace> faces;
  for (std::size_t i = 0; i < solids.size(); ++i) {
    if (lattice) {
      add_free(solids[i].body().lattice_surface().sheets, i, solids, axis, least_cosine, faces);
    } else {
      add_free(solids[i].body().exact_surface().sheets, i, solids, axis, least_cosine, faces);
    }
  }
  std::stable_sort(faces.begin(), faces.end(), [&](const BearingFace& p, const BearingFace& q) {
    const bool p_up = dot(p.normal, axis) > 0, q_up = dot(q.normal, axis) > 0;
    if (p_up != q_up) {
      return p_up;
    }
    return p_up ? p.offset_mm > q.offset_mm : p.offset_mm < q.offset_mm;
  });
  return faces;
}

}  // namespace geometry
