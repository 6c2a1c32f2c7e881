#include "geometry/cell.h"

#include <algorithm>
#include <limits>
#include <map>
#include <utility>

namespace geometry {

Cell to_cell(const Cuboid& box) {
  Cell cell;
  for (int corner = 0; corner < 8; ++corner) {
    const auto at = [&](std::size_t k) { return corner >> k & 1 ? box.hi[k] : box.lo[k]; };
    cell.points.emplace_back(Rational(at(0)), Rational(at(1)), Rational(at(2)));
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

// The cell with a corner wherever an edge crosses the plane: both halves choose from its corners.
struct Scored {
  Cell cell;
  std::vector<int> side;  // of each point: -1 below, 0 on, +1 above
};

Scored score(const Cell& cell, const std::vector<Rational>& heights) {
  Scored scored{cell, {}};
  for (const Rational& h : heights) {
    scored.side.push_back(h < 0 ? -1 : h > 0 ? 1 : 0);
  }
  std::map<std::pair<int, int>, int> crossings;
  for (std::size_t f = 0; f < cell.faces.size(); ++f) {
    const std::vector<int>& loop = cell.faces[f].loop;
    std::vector<int> scored_loop;
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const int a = loop[i], b = loop[(i + 1) % loop.size()];
      const auto ua = static_cast<std::size_t>(a), ub = static_cast<std::size_t>(b);
      scored_loop.push_back(a);
      if (scored.side[ua] * scored.side[ub] < 0) {
        const auto [it, fresh] =
            crossings.try_emplace(std::minmax(a, b), static_cast<int>(scored.cell.points.size()));
        if (fresh) {
          scored.cell.points.push_back(
              crossing(cell.points[ua], heights[ua], cell.points[ub], heights[ub]));
          scored.side.push_back(0);
        }
        scored_loop.push_back(it->second);
      }
    }
    scored.cell.faces[f].loop = std::move(scored_loop);
  }
  return scored;
}

// The half on `side` (-1 below, +1 above), closed by a cap in the plane.
Cell half(const Scored& scored, int side, const ExactPlane& plane) {
  Cell result;
  std::vector<int> renamed(scored.cell.points.size(), -1);
  std::map<int, int> cap;  // from one corner to the next, in old names
  for (const Cell::Face& face : scored.cell.faces) {
    std::vector<int> kept;
    bool has_area = false;
    for (const int p : face.loop) {
      const int s = scored.side[static_cast<std::size_t>(p)] * side;
      has_area = has_area || s > 0;
      if (s >= 0) {
        kept.push_back(p);
      }
    }
    if (!has_area) {
      continue;
    }
    for (std::size_t i = 0; i < kept.size(); ++i) {
      const int a = kept[i], b = kept[(i + 1) % kept.size()];
      if (scored.side[static_cast<std::size_t>(a)] == 0 &&
          scored.side[static_cast<std::size_t>(b)] == 0) {
        cap[b] = a;
      }
    }
    result.faces.push_back({face.plane, std::move(kept)});
  }
  ExactPlane outward = plane;
  outward.sign = side < 0 ? plane.sign : -plane.sign;
  Cell::Face lid{std::move(outward), {}};
  for (int p = cap.begin()->first; lid.loop.size() < cap.size(); p = cap.at(p)) {
    lid.loop.push_back(p);
  }
  result.faces.push_back(std::move(lid));
  for (Cell::Face& face : result.faces) {
    for (int& p : face.loop) {
      int& name = renamed[static_cast<std::size_t>(p)];
      if (name < 0) {
        name = static_cast<int>(result.points.size());
        result.points.push_back(scored.cell.points[static_cast<std::size_t>(p)]);
      }
      p = name;
    }
  }
  return result;
}

}  // namespace

Halves split(const Cell& cell, const ExactPlane& plane) {
  std::vector<Rational> heights;
  bool any_below = false, any_above = false;
  for (const ExactPoint& p : cell.points) {
    heights.push_back(plane.height(p));
    any_below = any_below || heights.back() < 0;
    any_above = any_above || heights.back() > 0;
  }
  if (!any_above) {
    return {cell, std::nullopt};
  }
  if (!any_below) {
    return {std::nullopt, cell};
  }
  const Scored scored = score(cell, heights);
  return {half(scored, -1, plane), half(scored, 1, plane)};
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

NmBounds bounds_of(const Cell& cell) {
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  NmBounds b{{kInfinity, kInfinity, kInfinity}, {-kInfinity, -kInfinity, -kInfinity}};
  for (const ExactPoint& p : cell.points) {
    for (std::size_t k = 0; k < 3; ++k) {
      const double c = to_double(p[static_cast<int>(k)]);
      b.lo[k] = std::min(b.lo[k], c - kRoundingNm);
      b.hi[k] = std::max(b.hi[k], c + kRoundingNm);
    }
  }
  return b;
}

}  // namespace geometry
