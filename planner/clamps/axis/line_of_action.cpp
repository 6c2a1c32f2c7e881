#include "planner/clamps/axis/line_of_action.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "geometry/elementary.h"
#include "planner/work/joint_fit.h"
#include "planner/work/touching.h"

namespace planner::clamps::axis {
namespace {

using geometry::Direction;
using geometry::Point;

constexpr double kInPlane_mm = 0.05;
// A mortise is cut up to 1/8 in deeper than its tenon, for glue (common practice): the force goes
// round by the shoulders.
constexpr double kMortiseRoom_mm = 3.2;

bool joined(std::span<const work::Joint> joints, work::PartId a, work::PartId b) {
  return std::any_of(joints.begin(), joints.end(), [&](const work::Joint& joint) {
    return joint.parts == std::array<work::PartId, 2>{std::min(a, b), std::max(a, b)};
  });
}

// A shoulder stands round its tenon: a clamp over the tenon presses it too.
bool lies_around(const geometry::Contact& contact, const Point& q) {
  for (const Direction& d : {contact.along, cross(contact.normal, contact.along)}) {
    const geometry::Extent reach = extent_along(contact.regions, d);
    if (dot(q, d) < reach.lo - 0.01 || dot(q, d) > reach.hi + 0.01) {
      return false;
    }
  }
  return true;
}

// On the face itself; a shoulder round a tenon anywhere between the two parts.
bool meets(const LineOfAction& action, const pressure::GlueLine& line, double height,
           double max_gap_mm) {
  for (std::size_t i = 1; i < action.path.size(); ++i) {
    const work::PartId a = action.path[i - 1].part, b = action.path[i].part;
    if (((a == line.over && b == line.under) || (a == line.under && b == line.over)) &&
        std::abs(action.path[i].enter_mm - height) < max_gap_mm) {
      return true;
    }
  }
  return false;
}

// A bearing face's plane: points p with dot(p, normal) = at.
struct FacePlane {
  const Direction& normal;
  double at = 0;
};

bool pad_within(const geometry::Polygon& region, const FacePlane& plane, const Direction& axis,
                const PadPlace& place, const Point& centre, const plan::PadSize& pad) {
  for (const double i : {-0.5, 0.5}) {
    for (const double j : {-0.5, 0.5}) {
      const Point corner =
          centre + (i * pad.along_mm) * place.along + (j * pad.across_mm) * place.across;
      const double off = (plane.at - dot(corner, plane.normal)) / dot(axis, plane.normal);
      if (!contains(region, corner + off * axis, kInPlane_mm)) {
        return false;
      }
    }
  }
  return contains(region, centre, 0);
}

std::optional<Slope> slope_under(const PadPlace& place, const Direction& axis, const Point& centre,
                                 work::PartId part, double outward, const plan::PadSize& pad) {
  constexpr double kFlat = 0.009;  // half a degree: a jaw gives as much
  for (const geometry::BearingFace& face : place.bearing) {
    const double looks = dot(face.normal, axis);
    const FacePlane plane{face.normal, (looks > 0 ? 1 : -1) * face.offset_mm};
    if (place.work.parts[face.solid] != part || looks * outward <= 0 ||
        std::abs(plane.at - dot(centre, face.normal)) > kInPlane_mm) {
      continue;
    }
    for (const geometry::Polygon& region : face.regions) {
      if (pad_within(region, plane, axis, place, centre, pad)) {
        const double out = looks * outward;
        const Slope slope{dot(face.normal, place.along) / out,
                          dot(face.normal, place.across) / out};
        const double steep = geometry::hypotenuse(slope.along, slope.across);
        return steep < kFlat ? Slope{} : slope;
      }
    }
  }
  return std::nullopt;
}

}  // namespace

geometry::Box bounds_of(const pressure::Work& work) {
  geometry::Box all = geometry::bounds(work.solids.front());
  for (const geometry::Solid& solid : work.solids) {
    const geometry::Box b = geometry::bounds(solid);
    all.lo = {std::min(all.lo.x, b.lo.x), std::min(all.lo.y, b.lo.y), std::min(all.lo.z, b.lo.z)};
    all.hi = {std::max(all.hi.x, b.hi.x), std::max(all.hi.y, b.hi.y), std::max(all.hi.z, b.hi.z)};
  }
  return all;
}

std::optional<LineOfAction> line_of_action(const pressure::Work& work, const Point& on_line,
                                           const Direction& axis) {
  LineOfAction action{axis, on_line, on_line, passages(work, on_line, axis)};
  if (action.path.empty()) {
    return std::nullopt;
  }
  const double height = dot(on_line, axis);
  action.at = on_line + (action.path.front().enter_mm - height) * axis;
  action.far = on_line + (action.path.back().leave_mm - height) * axis;
  return action;
}

double bridged_gap_mm(double glue_fills_mm) {
  return std::max(glue_fills_mm, work::kDrawnPlay_mm) + 0.05;
}

std::optional<std::size_t> after_hollow(const LineOfAction& action,
                                        std::span<const work::Joint> joints, double max_gap_mm) {
  for (std::size_t i = 1; i < action.path.size(); ++i) {
    const pressure::Passage &before = action.path[i - 1], &after = action.path[i];
    const double room = joined(joints, before.part, after.part) ? kMortiseRoom_mm : 0;
    if (after.enter_mm - before.leave_mm > std::max(max_gap_mm, room)) {
      return i;
    }
  }
  return std::nullopt;
}

std::vector<PressedAt> lines_pressed(const LineOfAction& action, std::span<const AskedLine> lines,
                                     std::span<const work::Joint> joints, double max_gap_mm) {
  std::vector<PressedAt> out;
  for (std::size_t l = 0; l < lines.size(); ++l) {
    const pressure::GlueLine& line = lines[l];
    const geometry::Contact& contact = joints[line.joint].faces[line.face].contact;
    const double to_plane =
        dot(contact.centroid - action.at, contact.normal) / dot(action.axis, contact.normal);
    const Point q = action.at + to_plane * action.axis;
    const bool shoulder = !main_face(joints[line.joint]);
    const double off = shoulder ? std::numeric_limits<double>::max() : max_gap_mm;
    if (!meets(action, line, dot(q, action.axis), off)) {
      continue;
    }
    const bool passes = shoulder ? lies_around(contact, q)
                                 : std::any_of(contact.regions.begin(), contact.regions.end(),
                                               [&](const auto& r) { return contains(r, q, 0.01); });
    if (passes) {
      out.push_back({l, std::clamp(dot(q - line.start, line.along), 0.0, line.length_mm)});
    }
  }
  return out;
}

std::optional<std::array<Slope, 2>> slopes_under(const PadPlace& place, const LineOfAction& action,
                                                 const plan::PadSize& pad) {
  const auto low = slope_under(place, action.axis, action.at, action.path.front().part, -1, pad);
  const auto high = slope_under(place, action.axis, action.far, action.path.back().part, 1, pad);
  return low && high ? std::optional(std::array{*low, *high}) : std::nullopt;
}

bool pads_bear(const PadPlace& place, const LineOfAction& action, const plan::PadSize& pad) {
  const auto slopes = slopes_under(place, action, pad);
  return slopes && (*slopes)[0].flat() && (*slopes)[1].flat();
}

}  // namespace planner::clamps::axis
