#include "planner/work/standing.h"

#include <algorithm>
#include <limits>
#include <numbers>

#include "geometry/elementary.h"
#include "planner/tables/wood.h"
#include "planner/work/force_balance.h"

namespace planner::work {
namespace {

using geometry::Direction;
using geometry::Point;

const double kNudge = geometry::tangent(8 * std::numbers::pi / 180);
constexpr double kDryFriction = 0.3, kWetFriction = 0.05;
// Of a face that glue wets. Boards laid flat on one another stay where they are laid, by suction: common
// practice.
double friction_of(const Joint& joint) {
  return joint.glued && joint.kind != JointKind::lamination ? kWetFriction : kDryFriction;
}

// As much as a part sags or tips, or a batten lifts it.
constexpr double kOnTheBench_mm = 10;
// What joints may push with in all, in weights of the part they hold: a tenon a seventh as long as
// its rail holds it level, a shelf sags out of its dado.
constexpr double kMostPush = 30;

bool is_in(PartId part, const std::vector<PartId>& parts) {
  return std::find(parts.begin(), parts.end(), part) != parts.end();
}

// Two directions across a unit vector.
std::array<Direction, 2> across(const Direction& n) {
  const Direction u = unit(cross(n, std::abs(n.x) < 0.9 ? geometry::kAxis[0] : geometry::kAxis[1]));
  return {u, cross(n, u)};
}

// The way gravity's counterpart points when weight leans to one of four sides.
std::array<Direction, 4> nudged(const Direction& up) {
  const auto [u, v] = across(up);
  return {up + kNudge * u, up - kNudge * u, up + kNudge * v, up - kNudge * v};
}

// The corners that reach farthest in eight directions of the plane: enough for what a face can
// carry.
std::vector<Point> outermost(const std::vector<Point>& points, const Direction& normal) {
  const auto [u, v] = across(normal);
  std::vector<Point> out;
  for (int k = 0; k < 8 && !points.empty(); ++k) {
    const double angle = k * std::numbers::pi / 4 + 0.1;  // off the sides, so that corners win
    const Direction way = geometry::cosine(angle) * u + geometry::sine(angle) * v;
    const Point& far = *std::max_element(
        points.begin(), points.end(),
        [&](const Point& a, const Point& b) { return dot(a, way) < dot(b, way) - 1e-9; });
    if (std::find(out.begin(), out.end(), far) == out.end()) {
      out.push_back(far);
    }
  }
  return out;
}

// What a face can push with at a point: along its normal, leaning by friction to four sides.
void add_pushes(const Point& at, const Direction& normal, double friction, const Point& about,
                double size_mm, double effort, std::vector<PointForce>& out) {
  const auto [u, v] = across(normal);
  for (const Direction& lean : {u, -u, v, -v}) {
    const Direction f = normal + friction * lean;
    const Direction m = (1 / size_mm) * cross(at - about, f);
    out.push_back({{f.x, f.y, f.z, m.x, m.y, m.z}, effort});
  }
}

bool inside(const std::vector<Point>& feet, const Point& p, const Direction& up) {
  // Outside where some line through two feet has all feet on one side and p on the other.
  const auto beyond = [&](const Point& a, const Point& b) {
    const Direction out = cross(b - a, up);
    const double edge = dot(a, out);
    return length(out) > 1e-9 && dot(p, out) > edge + 1e-9 &&
           std::all_of(feet.begin(), feet.end(),
                       [&](const Point& f) { return dot(f, out) <= edge + 1e-6 * length(out); });
  };
  for (const Point& a : feet) {
    for (const Point& b : feet) {
      if (beyond(a, b)) {
        return false;
      }
    }
  }
  return feet.size() >= 3;
}

}  // namespace

Standing::Standing(const Job& job, std::span<const geometry::Solid> solids,
                   std::span<const Joint> joints)
    : joints_(joints) {
  for (PartId part = 0; part < solids.size(); ++part) {
    const tables::Wood* wood = wood_of(job.parts[part]);
    const double gravity = wood != nullptr ? wood->specific_gravity : 1;
    weights_.push_back({volume_mm3(solids[part]) * gravity, centroid(solids[part])});
    corners_.emplace_back();
    for (const std::vector<Point>& cell : cell_points(solids[part])) {
      corners_.back().insert(corners_.back().end(), cell.begin(), cell.end());
    }
  }
}

Standing::Weight Standing::weight_of(const std::vector<PartId>& parts) const {
  Weight all;
  for (const PartId part : parts) {
    const Weight& one = weights_[part];
    all.mass += one.mass;
    all.centroid = all.centroid + one.mass * (one.centroid - Point{});
  }
  all.centroid = Point{} + (1 / all.mass) * (all.centroid - Point{});
  return all;
}

double Standing::lowest(const std::vector<PartId>& parts, const Direction& up) const {
  double low = std::numeric_limits<double>::infinity();
  for (const PartId part : parts) {
    for (const Point& corner : corners_[part]) {
      low = std::min(low, dot(corner, up));
    }
  }
  return low;
}

std::vector<Point> Standing::feet(const std::vector<PartId>& parts, const Direction& up,
                                  double level) const {
  std::vector<Point> feet;
  for (const PartId part : parts) {
    std::copy_if(corners_[part].begin(), corners_[part].end(), std::back_inserter(feet),
                 [&](const Point& p) { return dot(p, up) < level + kOnTheBench_mm; });
  }
  return outermost(feet, up);
}

bool Standing::stands(const std::vector<PartId>& parts, const Direction& up) const {
  const double level = lowest(parts, up);
  const std::vector<Point> feet = this->feet(parts, up, level);
  const Point middle = weight_of(parts).centroid;
  const double height = dot(middle, up) - level;
  const auto leans = nudged(up);
  return std::all_of(leans.begin(), leans.end(), [&](const Direction& lean) {
    return inside(feet, middle + (-height) * lean, up);
  });
}

bool Standing::stays(const std::vector<PartId>& moving, const std::vector<PartId>& staying,
                     const Direction& up) const {
  constexpr double kSize_mm = 100;  // moments in its units
  const Point middle = weight_of(moving).centroid;
  std::vector<PointForce> pushes;
  for (const Joint& joint : joints_) {
    const bool first = is_in(joint.parts[0], moving) && is_in(joint.parts[1], staying);
    const bool second = is_in(joint.parts[1], moving) && is_in(joint.parts[0], staying);
    for (const GlueFace& face : joint.faces) {
      if (first || second) {
        const Direction normal = first ? -face.contact.normal : face.contact.normal;
        std::vector<Point> corners;
        for (const geometry::Polygon& region : face.contact.regions) {
          corners.insert(corners.end(), region.outer.begin(), region.outer.end());
        }
        for (const Point& p : outermost(corners, normal)) {
          add_pushes(p, normal, friction_of(joint), middle, kSize_mm, 1,
                     pushes);
        }
      }
    }
  }
  const double level = std::min(lowest(moving, up), lowest(staying, up));
  for (const Point& p : feet(moving, up, level)) {
    add_pushes(p, up, kDryFriction, middle, kSize_mm, 0, pushes);
  }
  const auto leans = nudged(up);
  return std::all_of(leans.begin(), leans.end(), [&](const Direction& lean) {
    return can_add_up(pushes, {lean.x, lean.y, lean.z, 0, 0, 0}, kMostPush);
  });
}

}  // namespace planner::work
