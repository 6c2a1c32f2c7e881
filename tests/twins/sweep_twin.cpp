#include "twins/sweep_twin.h"

#include <algorithm>
#include <limits>
#include <numbers>
#include <vector>

#include <CGAL/AABB_traits.h>
#include <CGAL/AABB_tree.h>
#include <CGAL/AABB_triangle_primitive.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/convex_hull_3.h>

namespace twins {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Triangle = Kernel::Triangle_3;
using Triangles = std::vector<Triangle>;
using Tree = CGAL::AABB_tree<
    CGAL::AABB_traits<Kernel, CGAL::AABB_triangle_primitive<Kernel, Triangles::const_iterator>>>;
using geometry::Direction;
using geometry::Point;

constexpr double kDrawnIn_mm = 0.05;

Kernel::Point_3 exact_point(const Point& p) {
  return {p.x, p.y, p.z};
}

// The triangles of a convex piece, each plane moved in. The piece is shrunk towards its middle so
// far that its nearest face comes in by kDrawnIn_mm; one too thin for that is left out.
void add_piece(const std::vector<Point>& corners, Triangles& out, std::vector<Point>& middles) {
  std::vector<Kernel::Point_3> points;
  for (const Point& p : corners) {
    points.push_back(exact_point(p));
  }
  CGAL::Surface_mesh<Kernel::Point_3> hull;
  CGAL::convex_hull_3(points.begin(), points.end(), hull);
  Kernel::Vector_3 sum(0, 0, 0);
  for (const auto& p : points) {
    sum = sum + (p - CGAL::ORIGIN);
  }
  const Kernel::Point_3 middle = CGAL::ORIGIN + sum / static_cast<double>(points.size());
  Triangles triangles;
  double nearest = std::numeric_limits<double>::infinity();
  for (const auto face : hull.faces()) {
    auto h = hull.halfedge(face);
    const auto &a = hull.point(hull.target(h)), &b = hull.point(hull.target(hull.next(h))),
               &c = hull.point(hull.target(hull.next(hull.next(h))));
    triangles.emplace_back(a, b, c);
    const double squared =
        CGAL::to_double(CGAL::squared_distance(middle, Kernel::Plane_3(a, b, c)));
    nearest = std::min(nearest, std::sqrt(squared));
  }
  if (nearest <= 2 * kDrawnIn_mm) {
    return;
  }
  const double keep = 1 - kDrawnIn_mm / nearest;
  const auto drawn_in = [&](const Kernel::Point_3& p) { return middle + keep * (p - middle); };
  for (const Triangle& t : triangles) {
    out.emplace_back(drawn_in(t[0]), drawn_in(t[1]), drawn_in(t[2]));
  }
  middles.push_back({middle.x(), middle.y(), middle.z()});
}

}  // namespace

struct SweptBody::Impl {
  Triangles triangles;
  std::vector<Point> middles;  // one inside each piece
  Tree tree;
  CGAL::Bbox_3 box;

  // Whether this, every point of it moved, shares space with `other`. Of pieces that lie wholly in
  // one another without their skins meeting only the smaller's middle tells.
  template <class Move>
  bool meets(const Impl& other, Move moved) const {
    const auto put = [&](const Kernel::Point_3& p) {
      return exact_point(moved(Point{p.x(), p.y(), p.z()}));
    };
    return std::any_of(triangles.begin(), triangles.end(),
                       [&](const Triangle& t) {
                         return other.tree.do_intersect(Triangle(put(t[0]), put(t[1]), put(t[2])));
                       }) ||
           std::any_of(middles.begin(), middles.end(),
                       [&](const Point& p) { return other.contains(exact_point(moved(p))); });
  }

  bool contains(const Kernel::Point_3& p) const {
    const Kernel::Ray_3 ray(p, Kernel::Vector_3(0.7391, 0.2718, 0.6180));
    return box.xmin() < p.x() && p.x() < box.xmax() && box.ymin() < p.y() && p.y() < box.ymax() &&
           box.zmin() < p.z() && p.z() < box.zmax() &&
           tree.number_of_intersected_primitives(ray) % 2;
  }
};

SweptBody::SweptBody(const geometry::Solid& solid) : impl_(std::make_unique<Impl>()) {
  for (const std::vector<Point>& cell : geometry::cell_points(solid)) {
    add_piece(cell, impl_->triangles, impl_->middles);
  }
  impl_->tree.insert(impl_->triangles.begin(), impl_->triangles.end());
  impl_->tree.build();
  impl_->box = impl_->tree.empty() ? CGAL::Bbox_3() : impl_->tree.bbox();
}
SweptBody::~SweptBody() = default;
SweptBody::SweptBody(SweptBody&&) noexcept = default;

bool SweptBody::runs_into(const SweptBody& other, const Direction& d, int steps) const {
  const Impl &mine = *impl_, &theirs = *other.impl_;
  // Along d, from where the boxes begin to share a place to where they cease to.
  double from = 0, to = std::numeric_limits<double>::infinity();
  for (int k = 0; k < 3; ++k) {
    const double way = d[static_cast<std::size_t>(k)];
    const double first = theirs.box.min(k) - mine.box.max(k),
                 last = theirs.box.max(k) - mine.box.min(k);
    if (way == 0) {
      if (first >= 0 || last <= 0) {
        return false;
      }
      continue;
    }
    from = std::max(from, std::min(first / way, last / way));
    to = std::min(to, std::max(first / way, last / way));
  }
  for (int i = 0; i <= steps && from < to; ++i) {
    const double s = from + (to - from) * (i + 0.5) / (steps + 1);
    if (mine.meets(theirs, [&](const Point& p) { return p + s * d; })) {
      return true;
    }
  }
  return false;
}

bool SweptBody::turns_into(const SweptBody& other, const geometry::Hinge& hinge, double angle_deg,
                           int steps) const {
  for (int i = 0; i < steps; ++i) {
    const double angle = angle_deg * (i + 0.5) / steps * std::numbers::pi / 180;
    if (impl_->meets(*other.impl_, [&](const Point& p) { return turned_about(hinge, p, angle); })) {
      return true;
    }
  }
  return false;
}

}  // namespace twins
