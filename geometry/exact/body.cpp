#include "geometry/exact/body.h"

#include <algorithm>
#include <limits>

namespace geometry {
namespace {

Surface<LatticePlane, Rect> surface_of(const std::vector<Cuboid>& boxes) {
  std::vector<CellFace<LatticePlane, Rect>> faces;
  faces.reserve(6 * boxes.size());
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (int axis = 0; axis < 3; ++axis) {
      const Rect rect = face_of(boxes[i], axis);
      const auto k = static_cast<std::size_t>(axis);
      faces.push_back({{axis, -1, boxes[i].lo[k]}, rect, i});
      faces.push_back({{axis, 1, boxes[i].hi[k]}, rect, i});
    }
  }
  return exposed(std::move(faces), boxes.size());
}

ConvexPolygon flatten(const Cell& cell, const Cell::Face& face) {
  std::vector<FlatPoint<Rational>> points;
  for (const int p : face.loop) {
    points.push_back(drop(cell.points[static_cast<std::size_t>(p)], face.plane.axis));
  }
  return make_polygon(std::move(points));
}

Surface<ExactPlane, ConvexPolygon> surface_of(const Cells& all) {
  std::vector<CellFace<ExactPlane, ConvexPolygon>> faces;
  for (std::size_t i = 0; i < all.boxes.size(); ++i) {
    for (int axis = 0; axis < 3; ++axis) {
      const ConvexPolygon rect = make_polygon(face_of(all.boxes[i], axis));
      const auto k = static_cast<std::size_t>(axis);
      faces.push_back({lattice_plane(axis, -1, all.boxes[i].lo[k]), rect, i});
      faces.push_back({lattice_plane(axis, 1, all.boxes[i].hi[k]), rect, i});
    }
  }
  for (std::size_t i = 0; i < all.cells.size(); ++i) {
    for (const Cell::Face& face : all.cells[i].faces) {
      faces.push_back({face.plane, flatten(all.cells[i], face), all.boxes.size() + i});
    }
  }
  return exposed(std::move(faces), all.size());
}

Box box_of(const std::vector<Point>& points) {
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  Box box{{kInfinity, kInfinity, kInfinity}, {-kInfinity, -kInfinity, -kInfinity}};
  for (const Point& p : points) {
    box.lo = {std::min(box.lo.x, p.x), std::min(box.lo.y, p.y), std::min(box.lo.z, p.z)};
    box.hi = {std::max(box.hi.x, p.x), std::max(box.hi.y, p.y), std::max(box.hi.z, p.z)};
  }
  return box;
}

}  // namespace

RoundedCell round_cell(const Cuboid& box) {
  RoundedCell r;
  double c[2][3];
  for (std::size_t k = 0; k < 3; ++k) {
    c[0][k] = static_cast<double>(box.lo[k]) / 1e6;
    c[1][k] = static_cast<double>(box.hi[k]) / 1e6;
    r.faces.push_back({-kAxis[k], -c[0][k]});
    r.faces.push_back({kAxis[k], c[1][k]});
    r.edges.push_back(kAxis[k]);
  }
  for (int i = 0; i < 8; ++i) {
    r.corners.push_back({c[i & 1][0], c[i >> 1 & 1][1], c[i >> 2 & 1][2]});
  }
  r.box = {r.corners.front(), r.corners.back()};
  r.volume_mm3 = (c[1][0] - c[0][0]) * (c[1][1] - c[0][1]) * (c[1][2] - c[0][2]);
  r.centroid = r.box.lo + 0.5 * (r.box.hi - r.box.lo);
  return r;
}

namespace {

// Volume and centroid by tetrahedra from the first corner.
void weigh(const Cell& cell, RoundedCell& r) {
  Direction moment;
  for (const Cell::Face& face : cell.faces) {
    const auto from_first = [&](std::size_t i) {
      return r.corners[static_cast<std::size_t>(face.loop[i])] - r.corners.front();
    };
    for (std::size_t i = 1; i + 1 < face.loop.size(); ++i) {
      const Direction a = from_first(0), b = from_first(i), c = from_first(i + 1);
      const double volume = dot(a, cross(b, c)) / 6;
      r.volume_mm3 += volume;
      moment = moment + volume / 4 * (a + b + c);
    }
  }
  if (r.volume_mm3 > 0) {
    r.centroid = r.corners.front() + (1 / r.volume_mm3) * moment;
  }
}

}  // namespace

RoundedCell round_cell(const Cell& cell) {
  // Directions closer than this are one: it only saves the same question being asked twice.
  constexpr double kSameDirection = 1e-12;
  RoundedCell r;
  for (const ExactPoint& p : cell.points) {
    r.corners.push_back(to_mm(p));
  }
  for (const Cell::Face& face : cell.faces) {
    r.faces.push_back({face.plane.unit_normal(), offset_mm(face.plane)});
    for (std::size_t i = 0; i < face.loop.size(); ++i) {
      const Point& a = r.corners[static_cast<std::size_t>(face.loop[i])];
      const Point& b = r.corners[static_cast<std::size_t>(face.loop[(i + 1) % face.loop.size()])];
      if (a == b) {
        continue;
      }
      const Direction edge = unit(b - a);
      const bool known = std::any_of(r.edges.begin(), r.edges.end(), [&](const Direction& other) {
        return length(cross(edge, other)) < kSameDirection;
      });
      if (!known) {
        r.edges.push_back(edge);
      }
    }
  }
  r.box = box_of(r.corners);
  weigh(cell, r);
  return r;
}

Cell exact_cell(const Cells& all, std::size_t i) {
  return i < all.boxes.size() ? to_cell(all.boxes[i]) : all.cells[i - all.boxes.size()];
}

const Surface<LatticePlane, Rect>& Solid::Body::lattice_surface() const {
  std::call_once(lattice_once_, [this] { lattice_ = surface_of(cells.boxes); });
  return lattice_;
}

const Surface<ExactPlane, ConvexPolygon>& Solid::Body::exact_surface() const {
  if (drawn) {
    return drawn->flats;
  }
  std::call_once(exact_once_, [this] { exact_ = surface_of(cells); });
  return exact_;
}

const std::vector<RoundedSheet>& Solid::Body::rounded_sheets() const {
  std::call_once(sheets_once_, [this] {
    for (const ExactSheet& sheet : exact_surface().sheets) {
      RoundedSheet r{unit_normal(sheet.plane), offset_mm(sheet.plane), {}, {}};
      for (const ConvexPolygon& piece : sheet.pieces) {
        for (const FlatPoint<Rational>& p : piece.points) {
          r.corners.push_back(to_mm(lift(sheet.plane, p)));
        }
      }
      r.box = box_of(r.corners);
      rounded_sheets_.push_back(std::move(r));
    }
  });
  return rounded_sheets_;
}

const std::vector<RoundedCell>& Solid::Body::rounded() const {
  std::call_once(rounded_once_, [this] {
    for (const Cuboid& box : cells.boxes) {
      rounded_.push_back(round_cell(box));
    }
    for (const Cell& cell : cells.cells) {
      rounded_.push_back(round_cell(cell));
    }
  });
  return rounded_;
}

const Box& Solid::Body::bounds() const {
  std::call_once(bounds_once_, [this] {
    std::vector<Point> ends;
    for (const RoundedCell& cell : rounded()) {
      ends.push_back(cell.box.lo);
      ends.push_back(cell.box.hi);
    }
    bounds_ = ends.empty() ? Box{} : box_of(ends);
  });
  return bounds_;
}

}  // namespace geometry
