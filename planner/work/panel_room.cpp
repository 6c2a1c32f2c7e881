#include "planner/work/panel_room.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "planner/tables/wood.h"
#include "planner/work/joint_kind.h"
#include "planner/work/movement.h"

namespace planner::work {
namespace {

using geometry::Direction;

// Farther off than this a floor is another part's business.
constexpr double kLooksFor_mm = 15;

// A joint in which the panel lies in the other part's cut, seen from the panel.
struct Held {
  JointId joint = 0;
  PartId by = 0;
  Direction towards;  // one of the panel's four edges
};

// The edge of the panel that the joint holds: where its faces lie from the panel's middle.
Direction edge_towards(const Joint& joint, const geometry::Point& middle, const Direction& length,
                       const Direction& width) {
  double along = 0, across = 0;
  for (const GlueFace& face : joint.faces) {
    along += face.contact.area_mm2 * dot(face.contact.centroid - middle, length);
    across += face.contact.area_mm2 * dot(face.contact.centroid - middle, width);
  }
  if (std::abs(along) > std::abs(across)) {
    return along > 0 ? length : -length;
  }
  return across > 0 ? width : -width;
}

std::vector<Held> holders(PartId panel, const Job& job, const geometry::Solid& solid,
                          std::span<const Joint> joints) {
  const auto axes = part_axes(job.parts[panel]);
  std::vector<Held> out;
  for (JointId id = 0; id < joints.size(); ++id) {
    const Joint& joint = joints[id];
    const bool channel = joint.kind == JointKind::groove || joint.kind == JointKind::dado ||
                         joint.kind == JointKind::rabbet;
    if (!channel || !joint.host || joint.parts[1 - *joint.host] != panel) {
      continue;
    }
    out.push_back(
        {id, joint.parts[*joint.host], edge_towards(joint, centroid(solid), axes[0], axes[2])});
  }
  return out;
}

bool runs_along(const Direction& a, const Direction& b) {
  return dot(a, b) > 1 - 1e-6;
}

int sides_held(const std::vector<Held>& held) {
  std::vector<Direction> sides;
  for (const Held& h : held) {
    if (std::none_of(sides.begin(), sides.end(),
                     [&](const Direction& d) { return runs_along(d, h.towards); })) {
      sides.push_back(h.towards);
    }
  }
  return static_cast<int>(sides.size());
}

// The gap between the panel's edge and what it looks at in its holders' grooves; nothing where
// nothing holds that edge.
std::optional<double> gap_at(const Direction& edge, PartId panel, const std::vector<Held>& held,
                             std::span<const geometry::Solid> solids) {
  std::optional<double> least;
  geometry::Tolerance wide;
  wide.max_gap_mm = kLooksFor_mm;
  for (const Held& h : held) {
    if (!runs_along(h.towards, edge)) {
      continue;
    }
    const std::array<geometry::Solid, 2> pair{solids[panel], solids[h.by]};
    double gap = kLooksFor_mm;
    for (const geometry::Contact& c : find_contacts(pair, wide)) {
      gap = runs_along(c.normal, edge) ? std::min(gap, c.gap_mm) : gap;
    }
    least = std::min(least.value_or(gap), gap);
  }
  return least;
}

// How deep the panel's edge lies in its groove.
std::optional<double> engaged_at(const Direction& edge, const std::vector<Held>& held,
                                 std::span<const Joint> joints) {
  std::optional<double> least;
  for (const Held& h : held) {
    if (!runs_along(h.towards, edge)) {
      continue;
    }
    double deep = 0;
    for (const GlueFace& face : joints[h.joint].faces) {
      if (std::abs(dot(face.contact.normal, edge)) < 1e-6) {
        deep = std::max(deep, extent_along(face.contact.regions, edge).size());
      }
    }
    least = std::min(least.value_or(deep), deep);
  }
  return least;
}

std::optional<double> sum(const std::optional<double>& a, const std::optional<double>& b) {
  return a && b ? std::optional(*a + *b) : std::nullopt;
}

std::optional<double> lesser(const std::optional<double>& a, const std::optional<double>& b) {
  return a && b ? std::optional(std::min(*a, *b)) : a ? a : b;
}

std::optional<PanelRoom> room_of(PartId panel, const Job& job,
                                 std::span<const geometry::Solid> solids,
                                 std::span<const Joint> joints, double change_percent) {
  const tables::Wood* wood = wood_of(job.parts[panel]);
  if (wood == nullptr || wood->kind == tables::WoodKind::sheet || !wood->movement_tangential) {
    return std::nullopt;
  }
  const std::vector<Held> held = holders(panel, job, solids[panel], joints);
  const geometry::Direction width = part_axes(job.parts[panel])[2];
  constexpr double kCos30 = 0.86602540378443865;
  const auto crosses = [&](const Held& h) {
    return std::abs(dot(grain_of(job.parts[h.by]), width)) > kCos30;
  };
  PanelRoom room;
  room.panel = panel;
  room.sides = sides_held(held);
  if (room.sides < 3 || std::none_of(held.begin(), held.end(), crosses)) {
    return std::nullopt;
  }
  for (const Held& h : held) {
    if (joints[h.joint].glued && joints[h.joint].middle_mm == 0 && crosses(h)) {
      room.glued.push_back(h.joint);
    }
  }
  room.across_mm = job.parts[panel].width.mm();
  room.movement_mm = movement_mm(room.across_mm, *wood->movement_tangential, change_percent);
  room.room_mm = sum(gap_at(width, panel, held, solids), gap_at(-width, panel, held, solids));
  room.engaged_mm = lesser(engaged_at(width, held, joints), engaged_at(-width, held, joints));
  return room;
}

}  // namespace

std::vector<PanelRoom> panel_rooms(const Job& job, std::span<const geometry::Solid> solids,
                                   std::span<const Joint> joints, double change_percent) {
  std::vector<PanelRoom> rooms;
  for (PartId part = 0; part < job.parts.size(); ++part) {
    if (const auto room = room_of(part, job, solids, joints, change_percent)) {
      rooms.push_back(*room);
    }
  }
  return rooms;
}

}  // namespace planner::work
