#include "geometry/exact/cell.h"

#include <algorithm>
#include <map>
#include <utility>

namespace geometry {

void Cell::add(ExactPoint p) {
  rounded.push_back({to_double(p.x()), to_double(p.y()), to_double(p.z())});
  points.push_back(std::move(p));
}

Cell to_cell(const Cuboid& box) {
  Cell cell;
  for (int corner = 0; corner < 8; ++corner) {
    const auto at = [&](std::size_t k) { return corner >> k & 1 ? box.hi[k] : box.lo[k]; };
    cell.add({Rational(at(0)), Rational(at(1)), Rational(at(2))});
  }
  for (int axis = 0; axis < 3; ++axis) {
    const int u = 1 << u_axis(axis), v = 1 << v_axis(axis), up = 1 << axis;
    const auto k = static_cast<std::size_t>(axis);
    cell.faces.push_back({lattice_plane(axis, -1, box.lo[k]), {0, v, u + v, u}});
    cell.faces.push_back({lattice_plane(axis, 1, box.hi[k]), {up, up + u, up + u + v, up + v}});
  }
  return cell;
}

namespace {

ExactPoint crossing(const ExactPoint& a, const Rational& height_a, const ExactPoint& b,
                    const Rational& height_b) {
  const Rational t = height_a / (height_a - height_b);
  return {a.x() + t * (b.x() - a.x()), a.y() + t * (b.y() - a.y()), a.z() + t * (b.z() - a.z())};
}

// On which side of a plane each corner lies: -1 below, 0 on, +1 above. Exact; doubles decide where
// they are clear, which is down to a thousandth of a nanometre.
std::vector<int> sides(const Cell& cell, const ExactPlane& plane) {
  double n[3];
  for (std::size_t k = 0; k < 3; ++k) {
    n[k] = plane.sign * to_double(plane.normal[k]);
  }
  const double offset = plane.sign * to_double(plane.offset);
  std::vector<int> side;
  side.reserve(cell.points.size());
  for (std::size_t i = 0; i < cell.points.size(); ++i) {
    const std::array<double, 3>& p = cell.rounded[i];
    const double h = n[0] * p[0] + n[1] * p[1] + n[2] * p[2] - offset;
    // No component of the normal is over 1, so each term is out by less than kRoundingNm.
    side.push_back(h > 4 * kRoundingNm    ? 1
                   : h < -4 * kRoundingNm ? -1
                                          : CGAL::sign(plane.height(cell.points[i])));
  }
  return side;
}

// Puts a corner wherever an edge crosses the plane, so that both halves choose from the corners.
void add_crossings(Cell& cell, const ExactPlane& plane, std::vector<int>& side) {
  std::map<std::pair<int, int>, int> crossings;
  for (Cell::Face& face : cell.faces) {
    const bool crossed =
        std::any_of(face.loop.begin(), face.loop.end(),
                    [&](int p) { return side[static_cast<std::size_t>(p)] > 0; }) &&
        std::any_of(face.loop.begin(), face.loop.end(),
                    [&](int p) { return side[static_cast<std::size_t>(p)] < 0; });
    if (!crossed) {
      continue;
    }
    std::vector<int> loop;
    for (std::size_t i = 0; i < face.loop.size(); ++i) {
      const int a = face.loop[i], b = face.loop[(i + 1) % face.loop.size()];
      const auto ua = static_cast<std::size_t>(a), ub = static_cast<std::size_t>(b);
      loop.push_back(a);
      if (side[ua] * side[ub] < 0) {
        const auto [it, fresh] =
            crossings.try_emplace(std::minmax(a, b), static_cast<int>(cell.points.size()));
        if (fresh) {
          cell.add(crossing(cell.points[ua], plane.height(cell.points[ua]), cell.points[ub],
                            plane.height(cell.points[ub])));
          side.push_back(0);
        }
        loop.push_back(it->second);
      }
    }
    face.loop = std::move(loop);
  }
}

// Leaves the faces on one side (-1 below, +1 above), closed by a cap in the plane.
// REQUIRES: no edge crosses the plane any more; the cell has volume on both sides.
void keep_side(Cell& cell, int side, const ExactPlane& plane, const std::vector<int>& sides) {
  std::map<int, int> cap;  // from one corner to the next
  const auto on_side = [&](int p) { return sides[static_cast<std::size_t>(p)] * side; };
  std::erase_if(cell.faces, [&](Cell::Face& face) {
    if (std::none_of(face.loop.begin(), face.loop.end(), [&](int p) { return on_side(p) > 0; })) {
      return true;
    }
    std::erase_if(face.loop, [&](int p) { return on_side(p) < 0; });
    for (std::size_t i = 0; i < face.loop.size(); ++i) {
      const int a = face.loop[i], b = face.loop[(i + 1) % face.loop.size()];
      if (on_side(a) == 0 && on_side(b) == 0) {
        cap[b] = a;
      }
    }
    return false;
  });
  Cell::Face lid{plane, {}};
  lid.plane.sign = side < 0 ? plane.sign : -plane.sign;
  for (int p = cap.begin()->first; lid.loop.size() < cap.size(); p = cap.at(p)) {
    lid.loop.push_back(p);
  }
  cell.faces.push_back(std::move(lid));
}

// Drops the points that no face has any more.
void drop_unused(Cell& cell) {
  std::vector<int> renamed(cell.points.size(), -1);
  for (const Cell::Face& face : cell.faces) {
    for (const int p : face.loop) {
      renamed[static_cast<std::size_t>(p)] = 0;
    }
  }
  std::size_t kept = 0;
  for (std::size_t i = 0; i < renamed.size(); ++i) {
    if (renamed[i] == 0) {
      renamed[i] = static_cast<int>(kept);
      if (kept != i) {
        cell.points[kept] = std::move(cell.points[i]);
        cell.rounded[kept] = cell.rounded[i];
      }
      ++kept;
    }
  }
  cell.points.resize(kept);
  cell.rounded.resize(kept);
  for (Cell::Face& face : cell.faces) {
    for (int& p : face.loop) {
      p = renamed[static_cast<std::size_t>(p)];
    }
  }
}

bool has(const std::vector<int>& sides, int side) {
  return std::find(sides.begin(), sides.end(), side) != sides.end();
}

}  // namespace

bool clip_below(Cell& cell, const ExactPlane& plane) {
  std::vector<int> side = sides(cell, plane);
  if (!has(side, 1)) {
    return true;
  }
  if (!has(side, -1)) {
    return false;
  }
  add_crossings(cell, plane, side);
  keep_side(cell, -1, plane, side);
  drop_unused(cell);
  return true;
}

Halves split(Cell cell, const ExactPlane& plane) {
  std::vector<int> side = sides(cell, plane);
  if (!has(side, 1)) {
    return {std::move(cell), std::nullopt};
  }
  if (!has(side, -1)) {
    return {std::nullopt, std::move(cell)};
  }
  Cell below = std::move(cell);
  add_crossings(below, plane, side);
  Cell above = below;
  keep_side(below, -1, plane, side);
  keep_side(above, 1, plane, side);
  drop_unused(below);
  drop_unused(above);
  return {std::move(below), std::move(above)};
}

Rational volume_nm3(const Cell& cell) {
  const ExactPoint& o = cell.points.front();
  Rational six = 0;
  for (const Cell::Face& face : cell.faces) {
    const auto at = [&](std::size_t i) -> const ExactPoint& {
      return cell.points[static_cast<std::size_t>(face.loop[i])];
    };
    for (std::size_t i = 1; i + 1 < face.loop.size(); ++i) {
      six += CGAL::determinant(at(0) - o, at(i) - o, at(i + 1) - o);
    }
  }
  return six / 6;
}

}  // namespace geometry
