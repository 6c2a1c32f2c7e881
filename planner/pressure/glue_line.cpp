#include "planner/pressure/glue_line.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "geometry/crossing.h"
#include "planner/tables/wood.h"
#include "planner/work/joint_kind.h"

namespace planner::pressure {
namespace {

using geometry::Direction;
using geometry::Point;

// The reference lines that the strip model was checked on are narrow; wider faces are told as
// estimates. Common practice calls a face over 50 mm wide.
constexpr double kWideFace_mm = 50;
constexpr double kBrokenUp = 0.75;  // share of its rectangle that a straight strip fills at least

constexpr double kSameHeight_mm = 1e-6;

// How far beside the strip the panel's full thickness is looked for.
constexpr double kBeside_mm = 2;

const Passage* passage_of(const std::vector<Passage>& path, work::PartId part) {
  const auto it =
      std::find_if(path.begin(), path.end(), [part](const Passage& p) { return p.part == part; });
  return it == path.end() ? nullptr : &*it;
}

// Through the strip's middle, or a little off it where a hole or a mortise is in the way.
std::vector<Passage> path_through(const Work& work, const GlueLine& line, const Direction& axis,
                                  work::PartId a, work::PartId b) {
  for (const double share : {0.5, 0.37, 0.63, 0.21, 0.79}) {
    std::vector<Passage> path = passages(work, point_at(line, share * line.length_mm), axis);
    if (passage_of(path, a) != nullptr && passage_of(path, b) != nullptr) {
      return path;
    }
  }
  return {};
}

// The thickest of the part close beside the strip, on either hand, along the axis.
double beside_mm(const Work& work, const GlueLine& line, const Direction& axis,
                 const Direction& across) {
  double thickest = 0;
  for (const double side : {-1.0, 1.0}) {
    const Point p =
        point_at(line, line.length_mm / 2) + (side * (line.across_mm / 2 + kBeside_mm)) * across;
    const std::vector<Passage> path = passages(work, p, axis);
    if (const Passage* over = passage_of(path, line.over)) {
      thickest = std::max(thickest, over->leave_mm - over->enter_mm);
    }
  }
  return thickest;
}

// Extent of a part's blank along a direction; cuts at its rim leave the beam's width as it is.
double reach_along(const Work& work, work::PartId part, const Direction& d) {
  const auto index = static_cast<std::size_t>(
      std::find(work.parts.begin(), work.parts.end(), part) - work.parts.begin());
  const geometry::Box box = geometry::bounds(work.solids[index]);
  return std::abs(d.x) * (box.hi.x - box.lo.x) + std::abs(d.y) * (box.hi.y - box.lo.y) +
         std::abs(d.z) * (box.hi.z - box.lo.z);
}

// A bow along the line, or a cup across the board where the line runs across it, opens the line's
// middle if its hollow looks at the mate, its ends if it looks away.
double bow_of(const work::Part& part, const Direction& along, const Direction& towards_mate) {
  const auto axes = part_axes(part);
  const bool lengthwise = std::abs(dot(axes[0], along)) > 0.7;
  const std::optional<geometry::Length>& off = lengthwise ? part.bow : part.cup;
  if (!off || !part.hollow) {
    return 0;
  }
  Direction hollow = (part.hollow->positive ? 1.0 : -1.0) * geometry::kAxis[part.hollow->axis];
  if (!part.turns.empty()) {  // faces are named before the turn; part_axes are after it
    const auto which = part.hollow->axis == part.along ? 0 : part.hollow->axis == part.face ? 1 : 2;
    hollow = (part.hollow->positive ? 1.0 : -1.0) * axes[static_cast<std::size_t>(which)];
  }
  const double looks = dot(hollow, towards_mate);
  return std::abs(looks) < 0.7 ? 0 : std::copysign(off->mm(), looks);
}

bool filled_less(const geometry::Contact& contact) {
  const geometry::Extent run = extent_along(contact.regions, contact.along);
  const geometry::Extent wide = extent_along(contact.regions, cross(contact.normal, contact.along));
  return contact.area_mm2 < kBrokenUp * run.size() * wide.size();
}

// Straight, and filling its rectangle. Sets where the strip lies and how wide it is.
void lay_strip(GlueLine& line, const work::GlueFace& face, const Direction& axis,
               double middle_mm) {
  const geometry::Contact& contact = face.contact;
  line.along = non_negative(contact.along);
  const Direction across = cross(contact.normal, line.along);
  const geometry::Extent run = extent_along(contact.regions, line.along);
  const geometry::Extent wide = extent_along(contact.regions, across);
  line.tilt = std::abs(dot(contact.normal, axis));
  line.length_mm = middle_mm > 0 ? std::min(middle_mm, run.size()) : run.size();
  line.width_mm = contact.area_mm2 * line.tilt / run.size();
  line.across_mm = wide.size() * line.tilt;
  const Point& c = contact.centroid;
  const double x0 = (run.lo + run.hi) / 2 - line.length_mm / 2;
  line.start = c + (x0 - dot(c, line.along)) * line.along +
               ((wide.lo + wide.hi) / 2 - dot(c, across)) * across;
  line.offset_mm = dot(line.start, axis);
  line.estimated = filled_less(contact) || std::min(run.size(), wide.size()) > kWideFace_mm;
}

}  // namespace

Direction non_negative(const Direction& d) {
  for (std::size_t i = 0; i < 3; ++i) {
    if (std::abs(d[i]) > 1e-6) {
      return d[i] > 0 ? d : -d;
    }
  }
  return d;
}

Work work_of(std::span<const work::PartId> parts, std::span<const geometry::Solid> solids) {
  Work work;
  for (const work::PartId part : parts) {
    work.parts.push_back(part);
    work.solids.push_back(solids[part]);
  }
  return work;
}

Work whole_work(std::span<const geometry::Solid> solids) {
  Work work{std::vector<work::PartId>(solids.size()), {solids.begin(), solids.end()}};
  std::iota(work.parts.begin(), work.parts.end(), work::PartId{0});
  return work;
}

std::vector<Passage> passages(const Work& work, const Point& on_line, const Direction& axis) {
  std::vector<Passage> path;
  for (const geometry::Crossing& c : geometry::crossings(work.solids, on_line, axis)) {
    path.push_back({work.parts[c.solid], c.enter_mm, c.leave_mm});
  }
  return path;
}

Point point_at(const GlueLine& line, double x_mm) {
  return line.start + x_mm * line.along;
}

LineModuli moduli_along(const work::Part& part, const Direction& along, const Direction& axis) {
  const auto axes = part_axes(part);  // length, thickness, width: L, R, T of a flatsawn board
  constexpr std::array kWood{WoodAxis::along, WoodAxis::radial, WoodAxis::tangential};
  const auto nearest = [&](const Direction& d, std::optional<std::size_t> taken) {
    std::size_t best = taken && *taken == 0 ? 1 : 0;
    for (std::size_t i = 0; i < 3; ++i) {
      if ((!taken || *taken != i) &&
          std::abs(dot(axes[i], d)) > std::abs(dot(axes[best], d)) + 1e-9) {
        best = i;
      }
    }
    return best;
  };
  const std::size_t x = nearest(along, std::nullopt), z = nearest(axis, x);
  const WoodOrientation orientation{kWood[x], kWood[3 - x - z], kWood[z]};
  return moduli_in(stiffness_of(*wood_of(part)), orientation);
}

GlueLine glue_line(const work::Job& job, std::span<const work::Joint> joints, const Work& work,
                   work::JointId joint, std::size_t face, const Direction& axis) {
  const work::Joint& j = joints[joint];
  const work::GlueFace& glue = j.faces[face];
  GlueLine line;
  line.joint = joint;
  line.face = face;
  lay_strip(line, glue, axis, j.middle_mm);

  const work::PartId a = j.parts[0], b = j.parts[1];  // the normal looks out of a, into b
  const bool a_low = dot(glue.contact.normal, axis) > 0;
  const std::vector<Passage> path = path_through(work, line, axis, a, b);
  const Direction across = unit(cross(axis, line.along));
  const auto height = [&](work::PartId part) {
    const Passage* p = passage_of(path, part);
    return p != nullptr ? p->leave_mm - p->enter_mm : reach_along(work, part, axis);
  };
  const auto at_jaw = [&](work::PartId part) {
    return !path.empty() && (path.front().part == part || path.back().part == part);
  };
  const double thicker = height(a) - height(b);
  const bool thinner = std::abs(thicker) < kSameHeight_mm ? a_low : thicker < 0;
  const bool a_over = at_jaw(a) != at_jaw(b) ? at_jaw(a) : thinner;
  line.over = a_over ? a : b;
  line.under = a_over ? b : a;
  line.from_low = a_over == a_low;

  const work::Part& over = job.parts[line.over];
  const work::Part& under = job.parts[line.under];
  const bool ends_at_jaw = at_jaw(line.under);
  line.strip.length_mm = line.length_mm;
  line.strip.lip_thickness_mm = height(line.over);
  line.strip.panel_thickness_mm =
      std::max(line.strip.lip_thickness_mm, beside_mm(work, line, axis, across));
  line.strip.panel_reach_mm = std::max(line.width_mm, reach_along(work, line.over, across) / 2);
  line.strip.panel = moduli_along(over, line.along, axis);
  line.offcut = moduli_in(stiffness_of(*wood_of(over)), kPanelGrainAlongLine);
  line.strip.strip_width_mm = line.width_mm;
  // Pressed from both sides, its middle stays where it is; else the far jaw holds its end.
  line.strip.mating_depth_mm = height(line.under) / (ends_at_jaw ? 1 : 2);
  line.strip.mating = moduli_along(under, line.along, axis);
  const Direction down = (line.from_low ? 1.0 : -1.0) * axis;
  line.bow_mm = bow_of(over, line.along, down) + bow_of(under, line.along, -down);
  line.strip.bow_mm = line.bow_mm;

  line.wide = j.kind == work::JointKind::lamination && !filled_less(glue.contact) &&
              j.middle_mm <= 0 &&
              (job.bend || std::min(line.length_mm, line.across_mm) > kWideFace_mm);  // one caul takes a bend
  line.estimated &= !line.wide;
  line.shape = j.kind == work::JointKind::edge ? LineShape::edge : LineShape::strip;
  line.over_board = {height(line.over), reach_along(work, line.over, across), line.strip.panel};
  line.under_board = {height(line.under), reach_along(work, line.under, across), line.strip.mating};
  return line;
}

}  // namespace planner::pressure
