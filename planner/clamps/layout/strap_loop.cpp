#include "planner/clamps/layout/strap_loop.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "geometry/elementary.h"
#include "planner/tables/clamp.h"
#include "planner/work/joint_fit.h"
#include "planner/work/joint_kind.h"

namespace planner::clamps::layout {
namespace {

using geometry::Direction;
using geometry::Point;

constexpr double kStands = 0.01;     // of a face's normal along the ring's: it stands along that
constexpr double kSame_mm = 0.05;    // as turned parts' corners agree
constexpr double kLeastTurn = 0.02;  // radians; less is a straight side
constexpr double kLeastShare = 0.1;  // of the tension, to press a face at all
constexpr double kAtCorner = 1.5;    // the joint's middle from its corner, in thicknesses of a side

struct Flat {
  double x = 0, y = 0;
};
Flat operator-(Flat a, Flat b) {
  return {a.x - b.x, a.y - b.y};
}
double cross(Flat a, Flat b) {
  return a.x * b.y - a.y * b.x;
}
double length(Flat a) {
  return geometry::hypotenuse(a.x, a.y);
}

// Across the ring's normal.
struct Plane {
  Direction normal, x, y;
  Flat of(const Point& p) const { return {dot(p, x), dot(p, y)}; }
};

Plane plane_across(const Direction& normal) {
  const Direction x = std::abs(normal.x) < 0.9 ? geometry::kAxis[0] : geometry::kAxis[1];
  const Direction y = unit(cross(normal, x));
  return {normal, cross(y, normal), y};
}

// The convex outline, anticlockwise, without corners that hardly turn.
std::vector<Flat> outline_of(std::vector<Flat> points) {
  // Corners of turned parts agree but for rounding, by which they must not be sorted.
  constexpr double kSteps = 1000;  // a millimetre
  for (Flat& p : points) {
    p = {std::round(p.x * kSteps) / kSteps, std::round(p.y * kSteps) / kSteps};
  }
  std::sort(points.begin(), points.end(),
            [](Flat a, Flat b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
  std::vector<Flat> hull;
  for (int side = 0; side < 2; ++side) {
    const std::size_t first = hull.size();
    for (const Flat& p : points) {
      while (hull.size() >= first + 2 &&
             cross(hull.back() - hull[hull.size() - 2], p - hull.back()) <= kSame_mm * kSame_mm) {
        hull.pop_back();
      }
      hull.push_back(p);
    }
    hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

struct Shape {
  std::vector<Flat> corners;
  std::size_t before(std::size_t i) const { return (i + corners.size() - 1) % corners.size(); }
  std::size_t after(std::size_t i) const { return (i + 1) % corners.size(); }
  Flat side(std::size_t i) const { return corners[after(i)] - corners[i]; }  // that starts there
  double girth_mm() const {
    double sum = 0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
      sum += length(side(i));
    }
    return sum;
  }
  double turn(std::size_t i) const {
    const Flat a = side(before(i)), b = side(i);
    return geometry::arc_tangent(cross(a, b), a.x * b.x + a.y * b.y);
  }
};

Shape without_straight_corners(Shape shape) {
  Shape out;
  for (std::size_t i = 0; i < shape.corners.size(); ++i) {
    if (shape.turn(i) > kLeastTurn) {
      out.corners.push_back(shape.corners[i]);
    }
  }
  return out;
}

// A strap goes over tape too.
std::optional<std::size_t> strapped_face(const work::Joint& joint) {
  return joint.held_by == work::HeldBy::tape && !joint.faces.empty() ? std::optional<std::size_t>(0)
                                                                     : main_face(joint);
}

class RingFinder {
 public:
  RingFinder(const work::Job& job, std::span<const work::Joint> joints, const pressure::Work& work,
             const Direction& normal)
      : job_(job), joints_(joints), work_(work), plane_(plane_across(normal)) {}

  std::optional<StrapLoop> run(std::span<const work::JointId> of_stage) {
    collect(of_stage);
    if (!one_ring() || !lay_round()) {
      return std::nullopt;
    }
    StrapLoop ring;
    ring.normal = plane_.normal;
    ring.parts.assign(parts_.begin(), parts_.end());
    ring.height = height_;
    ring.corners = std::move(corners_);
    for (const Flat& corner : shape_.corners) {
      ring.outline.push_back(at(corner));
    }
    ring.girth_mm = (leans_ ? outline_of_all() : shape_).girth_mm();
    set_rise(ring);
    set_buckle(ring);
    for (const StrapCorner& corner : ring.corners) {
      if (corner.share < kLeastShare) {
        return std::nullopt;
      }
    }
    return ring;
  }

 private:
  // Larger faces that stand along the normal, and the parts they join.
  void collect(std::span<const work::JointId> of_stage) {
    for (const work::JointId id : of_stage) {
      const auto face = strapped_face(joints_[id]);
      if (joints_[id].glued && face &&
          std::abs(dot(joints_[id].faces[*face].contact.normal, plane_.normal)) < kStands) {
        faces_.push_back({id, *face});
        for (const work::PartId part : joints_[id].parts) {
          parts_.insert(part);
          ++degree_[part];
        }
      }
    }
    std::sort(faces_.begin(), faces_.end());
  }

  bool one_ring() const {
    if (parts_.size() < 3 || faces_.size() != parts_.size()) {
      return false;
    }
    for (const auto& [part, degree] : degree_) {
      if (degree != 2) {
        return false;
      }
    }
    std::set<work::PartId> reached{*parts_.begin()};
    for (bool grown = true; grown;) {
      grown = false;
      for (const axis::FaceRef& f : faces_) {
        const auto& [a, b] = joints_[f.joint].parts;
        if (reached.contains(a) != reached.contains(b)) {
          reached.insert({a, b});
          grown = true;
        }
      }
    }
    return reached.size() == parts_.size();
  }

  const geometry::Solid& solid_of(work::PartId part) const {
    const auto at = std::find(work_.parts.begin(), work_.parts.end(), part);
    return work_.solids[static_cast<std::size_t>(at - work_.parts.begin())];
  }

  std::vector<Point> points_of(work::PartId part) const {
    std::vector<Point> points;
    for (const auto& cell : cell_points(solid_of(part))) {
      points.insert(points.end(), cell.begin(), cell.end());
    }
    return points;
  }

  geometry::Extent height_of(work::PartId part) const {
    geometry::Extent out{1e300, -1e300};
    for (const Point& p : points_of(part)) {
      const double h = dot(p, plane_.normal);
      out.lo = std::min(out.lo, h);
      out.hi = std::max(out.hi, h);
    }
    return out;
  }

  // Sides neither upright nor flat.
  bool leans() const {
    return std::ranges::any_of(parts_, [&](work::PartId part) {
      const double share = std::abs(dot(part_axes(job_.parts[part])[1], plane_.normal));
      return share > kStands && share < 1 - kStands;
    });
  }

  // Where a plane across the ring meets the parts: that lies in each of their cells between its corners.
  Shape section_at(double height) const {
    std::vector<Flat> points;
    for (const work::PartId part : parts_) {
      for (const auto& cell : cell_points(solid_of(part))) {
        for (const Point& a : cell) {
          for (const Point& b : cell) {
            const double low = dot(a, plane_.normal), high = dot(b, plane_.normal);
            if (low <= height && high > height) {
              points.push_back(plane_.of(a + ((height - low) / (high - low)) * (b - a)));
            }
          }
        }
      }
    }
    return without_straight_corners({outline_of(std::move(points))});
  }

  Shape outline_of_all() const {
    std::vector<Flat> points;
    for (const work::PartId part : parts_) {
      for (const Point& p : points_of(part)) {
        points.push_back(plane_.of(p));
      }
    }
    return without_straight_corners({outline_of(std::move(points))});
  }

  // The outline, each joint at a corner of its own, and nothing beyond it at the ring's height.
  bool lay_round() {
    height_ = {-1e300, 1e300};
    for (const work::PartId part : parts_) {
      const geometry::Extent h = height_of(part);
      height_ = {std::max(height_.lo, h.lo), std::min(height_.hi, h.hi)};
    }
    leans_ = leans();
    shape_ = leans_ ? section_at((height_.lo + height_.hi) / 2) : outline_of_all();
    if (shape_.corners.size() < 3 || height_.hi - height_.lo < 1 || in_the_way()) {
      return false;
    }
    std::set<std::size_t> taken;
    for (const axis::FaceRef& f : faces_) {
      const Point& middle = joints_[f.joint].faces[f.face].contact.centroid;
      const std::size_t corner = nearest_corner(plane_.of(middle));
      if (!taken.insert(corner).second ||
          length(plane_.of(middle) - shape_.corners[corner]) > kAtCorner * widest_mm(f)) {
        return false;
      }
      corner_of_.push_back(corner);
      corners_.push_back({f, shape_.turn(corner), share_at(f, corner), 1, 1, both_end_on(f, corner)});
    }
    return true;
  }

  bool in_the_way() const {
    for (const work::PartId part : work_.parts) {
      const geometry::Extent h = height_of(part);
      if (parts_.contains(part) || h.hi < height_.lo + 1 || h.lo > height_.hi - 1) {
        continue;
      }
      for (const Point& p : points_of(part)) {
        for (std::size_t i = 0; i < shape_.corners.size(); ++i) {
          const Flat side = shape_.side(i);
          if (cross(side, plane_.of(p) - shape_.corners[i]) < -kSame_mm * length(side)) {
            return true;
          }
        }
      }
    }
    return false;
  }

  std::size_t nearest_corner(Flat p) const {
    std::size_t best = 0;
    for (std::size_t i = 1; i < shape_.corners.size(); ++i) {
      if (length(p - shape_.corners[i]) < length(p - shape_.corners[best]) - kSame_mm) {
        best = i;
      }
    }
    return best;
  }

  // Square to a side, across the ring: to its length; of a stave, whose
  // length stands along the normal, along its thickness.
  Direction across(work::PartId part) const {
    const auto axes = part_axes(job_.parts[part]);
    const bool stave = std::abs(dot(axes[0], plane_.normal)) > 0.7;
    return stave ? unit(axes[1] - dot(axes[1], plane_.normal) * plane_.normal)
                 : unit(cross(plane_.normal, axes[0]));
  }

  // Of the two sides that meet, across the ring: their size beside their own length.
  double widest_mm(const axis::FaceRef& f) const {
    double widest = 0;
    for (const work::PartId part : joints_[f.joint].parts) {
      const Direction across = this->across(part);
      geometry::Extent wide{1e300, -1e300};
      for (const Point& p : points_of(part)) {
        wide = {std::min(wide.lo, dot(p, across)), std::max(wide.hi, dot(p, across))};
      }
      widest = std::max(widest, wide.size());
    }
    return widest;
  }

  // Sides that lean are mitred.
  bool ends_on(work::PartId part, Flat corner) const {
    const auto points = points_of(part);
    return leans_ || std::any_of(points.begin(), points.end(), [&](const Point& p) {
             return length(plane_.of(p) - corner) < kSame_mm;
           });
  }

  bool both_end_on(const axis::FaceRef& f, std::size_t corner) const {
    return std::ranges::all_of(joints_[f.joint].parts, [&](work::PartId part) {
      return ends_on(part, shape_.corners[corner]);
    });
  }

  double share_at(const axis::FaceRef& f, std::size_t corner) const {
    const work::Joint& joint = joints_[f.joint];
    const Flat normal = plane_.of(Point{} + joint.faces[f.face].contact.normal);
    const auto part_along = [&](Flat side) {
      return std::abs(side.x * normal.x + side.y * normal.y) / length(side);
    };
    const Flat sides[] = {shape_.side(shape_.before(corner)), shape_.side(corner)};
    if (both_end_on(f, corner)) {
      return std::min(part_along(sides[0]), part_along(sides[1]));
    }
    const work::PartId lapped =
        ends_on(joint.parts[0], shape_.corners[corner]) ? joint.parts[1] : joint.parts[0];
    const Direction along = part_axes(job_.parts[lapped])[0];
    const Flat own = plane_.of(Point{} + along);
    const auto beside = [&](Flat side) {
      return std::abs(side.x * own.x + side.y * own.y) / length(side);
    };
    return part_along(beside(sides[0]) >= beside(sides[1]) ? sides[0] : sides[1]);
  }

  // At the middle of the height.
  Point at(Flat p) const {
    return Point{} + p.x * plane_.x + p.y * plane_.y +
           ((height_.lo + height_.hi) / 2) * plane_.normal;
  }

  Point middle_of(std::size_t side) const {
    const Flat from = shape_.corners[side], run = shape_.side(side);
    return at({from.x + run.x / 2, from.y + run.y / 2});
  }

  // Of the tension at a buckle on `side`, by corner of the outline the mean of its two legs: it
  // falls at every corner that the strap goes round, both ways (belt friction, textbook).
  std::vector<double> tensions_from(std::size_t side) const {
    const std::size_t n = shape_.corners.size();
    std::vector<double> left(n, 0);
    double forward = 0, back = 0;
    const auto legs = [&](std::size_t corner, double& turned) {
      const double before = geometry::exponential(-tables::kStrapFriction * turned);
      turned += shape_.turn(corner);
      left[corner] =
          std::max(left[corner], (before + geometry::exponential(-tables::kStrapFriction * turned)) / 2);
    };
    for (std::size_t k = 0; k < n; ++k) {
      legs((side + 1 + k) % n, forward);
      legs((side + n - k) % n, back);
    }
    return left;
  }

  // How corners go out or in with the height, as a section a tenth of it higher shows.
  void set_rise(StrapLoop& ring) const {
    ring.rise.assign(ring.outline.size(), plane_.normal);
    const double step = (height_.hi - height_.lo) / 10, middle = (height_.lo + height_.hi) / 2;
    const Shape above = leans_ ? section_at(middle + step) : Shape{};
    for (const Flat corner : above.corners) {
      const std::size_t below = nearest_corner(corner);
      const Flat out = corner - shape_.corners[below];
      ring.rise[below] = plane_.normal + (out.x / step) * plane_.x + (out.y / step) * plane_.y;
    }
  }

  // On the longest side, and across from it.
  void set_buckle(StrapLoop& ring) const {
    std::size_t longest = 0;
    const std::size_t n = shape_.corners.size();
    for (std::size_t i = 0; i < n; ++i) {
      if (length(shape_.side(i)) > length(shape_.side(longest)) + kSame_mm) {
        longest = i;
      }
    }
    const std::size_t across = (longest + n / 2) % n;
    const Flat run = shape_.side(longest);
    ring.along = (1 / length(run)) * (run.x * plane_.x + run.y * plane_.y);
    ring.buckle = middle_of(longest);
    ring.opposed = middle_of(across);
    ring.buckle_rise = 0.5 * (ring.rise[longest] + ring.rise[shape_.after(longest)]);
    ring.opposed_rise = 0.5 * (ring.rise[across] + ring.rise[shape_.after(across)]);
    const std::vector<double> one = tensions_from(longest), other = tensions_from(across);
    for (std::size_t c = 0; c < ring.corners.size(); ++c) {
      ring.corners[c].tension = one[corner_of_[c]];
      ring.corners[c].opposed_tension = other[corner_of_[c]];
    }
  }

  const work::Job& job_;
  std::span<const work::Joint> joints_;
  const pressure::Work& work_;
  Plane plane_;
  std::vector<axis::FaceRef> faces_;
  std::set<work::PartId> parts_;
  std::map<work::PartId, int> degree_;
  Shape shape_;  // where the strap lies; of sides that lean, at the middle of the height
  bool leans_ = false;
  geometry::Extent height_;
  std::vector<StrapCorner> corners_;
  std::vector<std::size_t> corner_of_;  // of the outline, a corner each
};

}  // namespace

std::optional<StrapLoop> find_band_ring(const work::Job& job, std::span<const work::Joint> joints,
                                        std::span<const work::JointId> of_stage,
                                        const pressure::Work& work, const Direction& normal) {
  return RingFinder(job, joints, work, normal).run(of_stage);
}

}  // namespace planner::clamps::layout
