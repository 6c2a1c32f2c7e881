#include "planner/work/joint_fit.h"

#include <algorithm>
#include <cmath>

#include "planner/work/joint_kind.h"

namespace planner::work {
namespace {

using geometry::Direction;

constexpr double kSame = 0.9998;  // cosine: 1 degree
constexpr double kOverlap = 0.5;  // share of the smaller face that its opposite covers

// Do two faces lie over one another, seen along their normal?
bool face_one_another(const geometry::Contact& a, const geometry::Contact& b) {
  const Direction across = cross(a.normal, a.along);
  for (const Direction& d : {a.along, across}) {
    const geometry::Extent ea = extent_along(a.regions, d), eb = extent_along(b.regions, d);
    const double shared = std::min(ea.hi, eb.hi) - std::max(ea.lo, eb.lo);
    if (shared < kOverlap * std::min(ea.size(), eb.size())) {
      return false;
    }
  }
  return true;
}

}  // namespace

bool fit_pressed(const Joint& joint, std::size_t face) {
  if (joint.driven) {
    return true;
  }
  if (joint.kind == JointKind::bridle) {
    return false;
  }
  const geometry::Contact& one = joint.faces[face].contact;
  if (joint.kind == JointKind::dovetail) {
    const std::optional<Direction> run = dovetail_run(joint);
    return !run || std::abs(dot(one.normal, *run)) < kSame;
  }
  return std::any_of(joint.faces.begin(), joint.faces.end(), [&](const GlueFace& other) {
    return dot(one.normal, other.contact.normal) < -kSame && face_one_another(one, other.contact);
  });
}

bool groove_floor(const Joint& joint, std::size_t face) {
  const geometry::Contact& floor = joint.faces[face].contact;
  const auto is_wall = [&](const GlueFace& one) {
    const Direction& n = one.contact.normal;
    // The floor's middle lies on the way from it to the wall across.
    return std::any_of(joint.faces.begin(), joint.faces.end(), [&](const GlueFace& other) {
      const double at = dot(floor.centroid - one.contact.centroid, n);
      const double to = dot(other.contact.centroid - one.contact.centroid, n);
      return dot(n, other.contact.normal) < -kSame && at * to > 0 && std::abs(at) < std::abs(to);
    });
  };
  return joint.kind == JointKind::groove && !fit_pressed(joint, face) &&
         std::any_of(joint.faces.begin(), joint.faces.end(), is_wall);
}

std::optional<std::size_t> main_face(const Joint& joint) {
  const bool comes_home = joint.seated || trade_of(joint.kind).asks != Asks::hold;
  const bool nothing = joint.faces.empty() || comes_home || wants_no_clamp(joint.held_by) ||
                       fit_pressed(joint, 0) || groove_floor(joint, 0);
  return nothing ? std::nullopt : std::optional<std::size_t>(0);
}

}  // namespace planner::work
