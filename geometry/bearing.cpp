#include "geometry/bearing.h"

#include <algorithm>
#include <limits>
#include <numbers>
#include <optional>
#include <utility>

#include "geometry/elementary.h"
#include "geometry/exact/body.h"

namespace geometry {
namespace {

// The shadow of what of a box stands in front of a plane across an axis.
std::optional<Rect> shadow_in_front(const Cuboid& box, const LatticePlane& plane) {
  const auto k = static_cast<std::size_t>(plane.axis);
  const bool in_front = plane.sign > 0 ? box.hi[k] > plane.offset : box.lo[k] < plane.offset;
  return in_front ? std::optional(face_of(box, plane.axis)) : std::nullopt;
}

// The same for any cell and plane; the shadow falls at right angles to the plane.
std::optional<ConvexPolygon> shadow_in_front(Cell front, const ExactPlane& plane) {
  ExactPlane from_above = plane;
  from_above.sign = -plane.sign;
  if (!clip_below(front, from_above)) {
    return std::nullopt;
  }
  const Rational squared = plane.normal[0] * plane.normal[0] + plane.normal[1] * plane.normal[1] +
                           plane.normal[2] * plane.normal[2];
  std::vector<FlatPoint<Rational>> flat;
  for (const ExactPoint& p : front.points) {
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
  for (Piece& piece : pieces) {
    subtract(std::move(piece), shadow, less);
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

// Tells soon that a shape is not in front of a sheet: not above its plane, or beside it.
class Front {
 public:
  explicit Front(const RoundedSheet& sheet)
      : normal_(sheet.normal),
        offset_mm_(sheet.offset_mm),
        along_(unit(sheet.corners[1] - sheet.corners[0])),
        across_(cross(normal_, along_)),
        extent_along_(extent(sheet.corners, along_)),
        extent_across_(extent(sheet.corners, across_)) {}

  bool may_hold(const std::vector<Point>& corners) const {
    // What only touches the plane or its edge is not in front of it; rounding is far less.
    constexpr double kTouching = 1e-6;
    const auto meet = [](const Extent& a, const Extent& b) {
      return a.lo < b.hi - kTouching && b.lo < a.hi - kTouching;
    };
    return extent(corners, normal_).hi > offset_mm_ + kTouching &&
           meet(extent(corners, along_), extent_along_) &&
           meet(extent(corners, across_), extent_across_);
  }

  // Of the corners moved onto the sheet at right angles: no smaller than what is above it throws.
  Box shadow_box(const std::vector<Point>& corners) const {
    constexpr double kInfinity = std::numeric_limits<double>::infinity();
    Box box{{kInfinity, kInfinity, kInfinity}, {-kInfinity, -kInfinity, -kInfinity}};
    for (const Point& p : corners) {
      const Point q = p + (offset_mm_ - dot(p, normal_)) * normal_;
      box.lo = {std::min(box.lo.x, q.x), std::min(box.lo.y, q.y), std::min(box.lo.z, q.z)};
      box.hi = {std::max(box.hi.x, q.x), std::max(box.hi.y, q.y), std::max(box.hi.z, q.z)};
    }
    return box;
  }

 private:
  static Extent extent(const std::vector<Point>& points, const Direction& d) {
    return extent_along(Polygon{points, {}}, d);
  }

  Direction normal_;
  double offset_mm_;
  Direction along_, across_;
  Extent extent_along_, extent_across_;
};

// A cell in front of a sheet.
struct Shade {
  const Solid::Body* body;
  std::size_t cell;
  Box box;  // of its shadow, in the sheet's plane
};

double spread(const Box& box) {
  const Direction d = box.hi - box.lo;
  return std::max({d.x * d.y, d.y * d.z, d.z * d.x});
}

// Large shadows first: they leave little for the many small ones.
std::vector<Shade> shades_of(const RoundedSheet& shape, std::span<const Solid> solids) {
  const Front front(shape);
  std::vector<Shade> shades;
  for (const Solid& solid : solids) {
    const Solid::Body& body = solid.body();
    for (std::size_t i = 0; i < body.cells.size(); ++i) {
      const std::vector<Point>& corners = body.rounded()[i].corners;
      if (front.may_hold(corners)) {
        shades.push_back({&body, i, front.shadow_box(corners)});
      }
    }
  }
  std::stable_sort(shades.begin(), shades.end(),
                   [](const Shade& a, const Shade& b) { return spread(a.box) > spread(b.box); });
  return shades;
}

// Whether a shadow may reach into a piece of a plane with this axis, by the boxes of both.
bool may_meet(const Box& shadow, const ConvexPolygon& piece, int axis) {
  constexpr double kTouchingNm =
      1e-3;  // what doubles are out, and no more: slivers must go as well
  const auto u = static_cast<std::size_t>(u_axis(axis)), v = static_cast<std::size_t>(v_axis(axis));
  return shadow.lo[u] * 1e6 < piece.u1 - kTouchingNm &&
         shadow.hi[u] * 1e6 > piece.u0 + kTouchingNm &&
         shadow.lo[v] * 1e6 < piece.v1 - kTouchingNm && shadow.hi[v] * 1e6 > piece.v0 + kTouchingNm;
}

ExactSheet free_part(ExactSheet sheet, const RoundedSheet& shape, std::span<const Solid> solids) {
  for (const Shade& shade : shades_of(shape, solids)) {
    const bool matters = std::any_of(
        sheet.pieces.begin(), sheet.pieces.end(),
        [&](const ConvexPolygon& piece) { return may_meet(shade.box, piece, sheet.plane.axis); });
    if (!matters) {
      continue;
    }
    if (const auto shadow =
            shadow_in_front(exact_cell(shade.body->cells, shade.cell), sheet.plane)) {
      take_out(*shadow, sheet.pieces);
    }
  }
  return sheet;
}

void add_free(std::size_t solid, std::span<const Solid> solids, bool on_lattice,
              const Direction& axis, double least_cosine, std::vector<BearingFace>& out) {
  const Solid::Body& body = solids[solid].body();
  const auto add = [&](const Direction& normal, double offset_mm, const auto& free) {
    const double along = dot(normal, axis);
    if (std::abs(along) >= least_cosine) {
      std::vector<Polygon> regions = regions_of(free());
      if (!regions.empty()) {
        out.push_back({solid, normal, (along > 0 ? 1 : -1) * offset_mm, std::move(regions)});
      }
    }
  };
  if (on_lattice) {
    for (const LatticeSheet& sheet : body.lattice_surface().sheets) {
      add(unit_normal(sheet.plane), offset_mm(sheet.plane),
          [&] { return free_part(sheet, solids); });
    }
    return;
  }
  for (std::size_t i = 0; i < body.rounded_sheets().size(); ++i) {
    const RoundedSheet& shape = body.rounded_sheets()[i];
    add(shape.normal, shape.offset_mm,
        [&] { return free_part(body.exact_surface().sheets[i], shape, solids); });
  }
}

}  // namespace

std::vector<BearingFace> find_bearing_faces(std::span<const Solid> solids, const Direction& axis,
                                            const Tolerance& tolerance) {
  // Rounding of a unit vector must not shut out a face that is square to the axis.
  constexpr double kRounding = 1e-12;
  const double least_cosine = cosine(tolerance.max_angle_deg * std::numbers::pi / 180) - kRounding;
  const bool lattice = std::all_of(solids.begin(), solids.end(),
                                   [](const Solid& s) { return s.body().cells.on_lattice(); });
  std::vector<BearingFace> faces;
  for (std::size_t i = 0; i < solids.size(); ++i) {
    add_free(i, solids, lattice, axis, least_cosine, faces);
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
