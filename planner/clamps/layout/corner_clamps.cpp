#include "planner/clamps/layout/corner_clamps.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>

#include "planner/clamps/bodies/clamp_bodies.h"

namespace planner::clamps::layout {
namespace {

using geometry::Point;

constexpr std::size_t kCorners = 4;
constexpr double kStep_mm = 10;  // between the heights that are tried
constexpr double kTouch_mm = 0.1;

// A box by its coordinates.
struct Room {
  std::array<double, 3> lo{}, hi{};
};

Room room_of(const geometry::Box& box) {
  return {{box.lo.x, box.lo.y, box.lo.z}, {box.hi.x, box.hi.y, box.hi.z}};
}

bool overlap(const Room& a, const Room& b) {
  for (std::size_t i = 0; i < 3; ++i) {
    if (a.lo[i] > b.hi[i] - kTouch_mm || b.lo[i] > a.hi[i] - kTouch_mm) {
      return false;
    }
  }
  return true;
}

// So far to either side along a few directions.
struct Half {
  geometry::Direction along;
  double mm = 0;
};
Room around(const Point& centre, std::initializer_list<Half> halves) {
  Room room;
  for (std::size_t i = 0; i < 3; ++i) {
    double half = 0;
    for (const Half& h : halves) {
      half += std::abs(h.along[i]) * h.mm;
    }
    room.lo[i] = centre[i] - half;
    room.hi[i] = centre[i] + half;
  }
  return room;
}

// Along a strap's straight run between two corners; as thick as a strap.
Room along_strap(const plan::PlannedClamp& strap, const Point& from, const Point& to) {
  constexpr double kThick_mm = 3;
  Room room = around(from, {{strap.axis, strap.pad.across_mm / 2}});
  for (std::size_t i = 0; i < 3; ++i) {
    room.lo[i] = std::min(room.lo[i], to[i]) - kThick_mm;
    room.hi[i] = std::max(room.hi[i], to[i]) + kThick_mm;
  }
  return room;
}

// What the clamps of the layout take up: pads, cauls, bars, jaws and straps.
std::vector<Room> taken_by(const ClampProblem& problem, const ClampLayout& layout) {
  std::vector<Room> out;
  for (const PressingAxis& round : layout.rounds) {
    for (const plan::PlannedClamp& c : round.clamps) {
      for (std::size_t i = 0; i < c.round.size(); ++i) {
        out.push_back(along_strap(c, c.round[i], c.round[(i + 1) % c.round.size()]));
      }
      if (!c.round.empty()) {
        continue;
      }
      const plan::PadSize& under = c.caul ? *c.caul : c.pad;
      const geometry::Direction across = cross(c.axis, c.pad_along);
      const Point middle = c.at + c.caul_shift_mm * c.pad_along;
      for (const double off : {-under.thick_mm / 2, c.span_mm + under.thick_mm / 2}) {
        out.push_back(around(middle + off * c.axis, {{c.pad_along, under.along_mm / 2},
                                                     {across, under.across_mm / 2},
                                                     {c.axis, under.thick_mm / 2}}));
      }
      for (const geometry::Box& box :
           body_of(bodies::standing_clamp(c, problem.shop), c.bar_side)) {
        out.push_back(room_of(box));
      }
    }
  }
  return out;
}

class CornerPlaces {
 public:
  CornerPlaces(const ClampProblem& problem, const work::Ring& ring, const ClampLayout& layout)
      : problem_(problem),
        ring_(ring),
        normal_(static_cast<std::size_t>(ring.normal_axis)),
        taken_(taken_by(problem, layout)) {
    whole_ = room_of(geometry::bounds(problem.solids[ring.parts[0]]));
    height_ = {whole_.lo[normal_], whole_.hi[normal_]};
    for (const work::PartId part : ring.parts) {
      const Room box = room_of(geometry::bounds(problem.solids[part]));
      for (std::size_t i = 0; i < 3; ++i) {
        whole_.lo[i] = std::min(whole_.lo[i], box.lo[i]);
        whole_.hi[i] = std::max(whole_.hi[i], box.hi[i]);
      }
      height_.lo = std::max(height_.lo, box.lo[normal_]);
      height_.hi = std::min(height_.hi, box.hi[normal_]);
    }
  }

  // Across the corner, of the thicker of its parts.
  double thickest_mm(std::size_t corner) const {
    double most = 0;
    for (const work::PartId part : {ring_.parts[corner], ring_.parts[(corner + 1) % kCorners]}) {
      const Room box = room_of(geometry::bounds(problem_.solids[part]));
      double least = 1e300;
      for (std::size_t i = 0; i < 3; ++i) {
        least = i == normal_ ? least : std::min(least, box.hi[i] - box.lo[i]);
      }
      most = std::max(most, least);
    }
    return most;
  }

  std::optional<work::JointId> joint_at(std::size_t corner) const {
    const work::PartId a = ring_.parts[corner], b = ring_.parts[(corner + 1) % kCorners];
    for (const work::JointId id : problem_.stage_joints) {
      const auto& parts = problem_.joints[id].parts;
      if ((parts[0] == a && parts[1] == b) || (parts[0] == b && parts[1] == a)) {
        return id;
      }
    }
    return std::nullopt;
  }

  // Where a clamp stays on, else where it can stand till the others come.
  std::optional<plan::CornerClamp> place(work::JointId joint, const tables::ClampKind& kind) const {
    for (const bool stays : {true, false}) {
      if (const auto edge = place(joint, kind, stays)) {
        return plan::CornerClamp{joint, *edge, kind.id, 0, stays};
      }
    }
    return std::nullopt;
  }

 private:
  // The corner's outer edge, at the middle of the clamp's height; nothing where it has no room.
  std::optional<Point> place(work::JointId joint, const tables::ClampKind& kind, bool stays) const {
    const Point& near = problem_.joints[joint].faces.front().contact.centroid;
    std::array<double, 3> edge{near.x, near.y, near.z};
    for (std::size_t i = 0; i < 3; ++i) {
      if (i != normal_) {
        edge[i] = near[i] - whole_.lo[i] < whole_.hi[i] - near[i] ? whole_.lo[i] : whole_.hi[i];
        if (std::abs(edge[i] - near[i]) > kind.pad_width_mm) {
          return std::nullopt;  // a side runs on past the joint: no corner for its jaws
        }
      }
    }
    const double half = std::min(kind.pad_height_mm, height_.size()) / 2;
    for (double down = half; down <= height_.size() - half + kTouch_mm; down += kStep_mm) {
      for (const bool from_top : {true, false}) {
        edge[normal_] = from_top ? height_.hi - down : height_.lo + down;
        if (clear(edge, half, from_top, stays, kind)) {
          return Point{edge[0], edge[1], edge[2]};
        }
      }
    }
    return std::nullopt;
  }

  // Around the corner, and inside it out to the open end, past which the clamp comes off.
  bool clear(const std::array<double, 3>& edge, double half, bool open_high, bool stays,
             const tables::ClampKind& kind) const {
    Room body, way;
    for (std::size_t i = 0; i < 3; ++i) {
      if (i == normal_) {
        body.lo[i] = way.lo[i] = edge[i] - half;
        body.hi[i] = way.hi[i] = edge[i] + half;
        (open_high ? way.hi : way.lo)[i] = open_high ? 1e6 : -1e6;
        continue;
      }
      const bool low = edge[i] < (whole_.lo[i] + whole_.hi[i]) / 2;
      body.lo[i] = edge[i] - (low ? kind.bar_depth_mm : kind.pad_width_mm);
      body.hi[i] = edge[i] + (low ? kind.pad_width_mm : kind.bar_depth_mm);
      way.lo[i] = low ? edge[i] : edge[i] - kind.pad_width_mm;
      way.hi[i] = low ? edge[i] + kind.pad_width_mm : edge[i];
    }
    for (const work::PartId part : problem_.parts) {
      const Room box = room_of(geometry::bounds(problem_.solids[part]));
      const bool of_ring =
          std::find(ring_.parts.begin(), ring_.parts.end(), part) != ring_.parts.end();
      if (!of_ring && (overlap(box, way) || overlap(box, body))) {
        return false;
      }
    }
    return !stays || std::none_of(taken_.begin(), taken_.end(),
                                  [&](const Room& room) { return overlap(room, body); });
  }

  const ClampProblem& problem_;
  const work::Ring& ring_;
  std::size_t normal_;
  std::vector<Room> taken_;
  Room whole_;
  geometry::Extent height_;
};

// Rows of the rack, a clamp each.
std::vector<std::size_t> rows_of(const work::Shop& shop) {
  std::vector<std::size_t> rows;
  for (std::size_t r = 0; r < shop.clamps.size(); ++r) {
    const tables::ClampKind* kind = tables::find_clamp_kind(shop.clamps[r].kind);
    if (kind != nullptr && kind->use == tables::ClampUse::corner) {
      rows.insert(rows.end(), static_cast<std::size_t>(std::max(0, shop.clamps[r].count)), r);
    }
  }
  return rows;
}

}  // namespace

CornerClamps corner_clamps(const ClampProblem& problem, const work::Ring& ring,
                           const ClampLayout& layout) {
  CornerClamps out;
  const std::vector<std::size_t> rows = rows_of(problem.shop);
  if (rows.empty()) {
    return out;
  }
  const CornerPlaces places(problem, ring, layout);
  bool too_thick = false;
  std::vector<std::optional<plan::CornerClamp>> at(kCorners);
  for (std::size_t corner = 0; corner < kCorners; ++corner) {
    const std::size_t row = rows[std::min(corner, rows.size() - 1)];
    const work::OwnedClamp& owned = problem.shop.clamps[row];
    const auto joint = places.joint_at(corner);
    if (joint && problem.joints[*joint].pocket) {
      return out;  // the clamp that goes from screw to screw keeps each flush
    }
    if (joint && places.thickest_mm(corner) > owned.opening.mm()) {
      too_thick = true;
    } else if (joint) {
      at[corner] = places.place(*joint, *tables::find_clamp_kind(owned.kind));
    }
  }
  // All, or two across from one another: those keep the other two square as well.
  for (const std::vector<std::size_t>& corners :
       {std::vector<std::size_t>{0, 1, 2, 3}, {0, 2}, {1, 3}}) {
    const bool room = std::all_of(corners.begin(), corners.end(),
                                  [&](std::size_t corner) { return at[corner].has_value(); });
    if (out.set.empty() && room && corners.size() <= rows.size()) {
      for (std::size_t i = 0; i < corners.size(); ++i) {
        out.set.push_back(*at[corners[i]]);
        out.set.back().owned = rows[i];
        out.set.back().kind = problem.shop.clamps[rows[i]].kind;
      }
    }
  }
  if (out.set.empty()) {
    using Why = plan::CornerClampsNote::Why;
    out.why_not = {rows.size() < 2 ? Why::one_alone : too_thick ? Why::too_thick : Why::no_room};
  }
  return out;
}

}  // namespace planner::clamps::layout
