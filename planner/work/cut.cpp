#include "planner/work/cut.h"

#include <cmath>
#include <cstdint>
#include <numbers>

namespace planner::work {
namespace {

using geometry::HalfSpace;
using geometry::LatticeBox;

template <class... Handlers>
struct Overloaded : Handlers... {
  using Handlers::operator()...;
};
template <class... Handlers>
Overloaded(Handlers...) -> Overloaded<Handlers...>;

std::size_t index(int axis) {
  return static_cast<std::size_t>(axis);
}

LatticeBox whole(const Part& part) {
  return {{}, {part.size(0), part.size(1), part.size(2)}};
}

void limit(LatticeBox& box, int axis, geometry::Length lo, geometry::Length hi) {
  box.lo[index(axis)] = lo;
  box.hi[index(axis)] = hi;
}

// The layer of this depth under a face.
void limit_under(LatticeBox& box, const Part& part, Face face, geometry::Length depth) {
  const geometry::Length size = part.size(face.axis);
  if (face.positive) {
    limit(box, face.axis, size - depth, size);
  } else {
    limit(box, face.axis, geometry::Length(), depth);
  }
}

LatticeBox box_of(const Part& part, const Rabbet& r) {
  LatticeBox box = whole(part);
  limit_under(box, part, r.on, r.depth);
  limit_under(box, part, r.side, r.width);
  const int run = 3 - r.on.axis - r.side.axis;
  limit(box, run, r.from.value_or(geometry::Length()), r.to.value_or(part.size(run)));
  return box;
}

LatticeBox box_of(const Part& part, const Channel& c) {
  LatticeBox box = whole(part);
  limit_under(box, part, c.on, c.depth);
  limit(box, 3 - c.on.axis - c.runs, c.offset, c.offset + c.width);
  limit(box, c.runs, c.from.value_or(geometry::Length()), c.to.value_or(part.size(c.runs)));
  return box;
}

LatticeBox box_of(const Part& part, const Mortise& m) {
  LatticeBox box = whole(part);
  limit_under(box, part, m.on, m.depth);
  const std::array<int, 2> axes = axes_of(m.on);
  for (std::size_t i = 0; i < 2; ++i) {
    limit(box, axes[i], m.from[i], m.from[i] + m.size[i]);
  }
  return box;
}

// What stands round a tenon is taken off in up to four slabs: whole ones beside it along the first
// axis, the rest along the second.
std::vector<LatticeBox> boxes_of(const Part& part, const Tenon& t) {
  LatticeBox end = whole(part);
  limit_under(end, part, t.on, t.length);
  const auto [first, second] = axes_of(t.on);
  std::vector<LatticeBox> boxes;
  const auto add = [&](LatticeBox box, int axis, geometry::Length lo, geometry::Length hi) {
    if (lo < hi) {
      limit(box, axis, lo, hi);
      boxes.push_back(box);
    }
  };
  const geometry::Length lo = t.from[0], hi = t.from[0] + t.size[0];
  add(end, first, geometry::Length(), lo);
  add(end, first, hi, part.size(first));
  LatticeBox middle = end;
  limit(middle, first, lo, hi);
  add(middle, second, geometry::Length(), t.from[1]);
  add(middle, second, t.from[1] + t.size[1], part.size(second));
  return boxes;
}

std::vector<LatticeBox> boxes_of(const Part& part, const Fingers& f) {
  LatticeBox end = whole(part);
  limit_under(end, part, f.side, f.depth);
  const int across = f.side.axis == part.along ? part.across() : part.along;
  const geometry::Length pitch = part.size(across) / f.count;
  std::vector<LatticeBox> boxes;
  for (int i = f.first_kept ? 1 : 0; i < f.count; i += 2) {
    // The last piece takes what the division leaves over.
    limit(end, across, i * pitch, i + 1 == f.count ? part.size(across) : (i + 1) * pitch);
    boxes.push_back(end);
  }
  return boxes;
}

constexpr double kScale = 1e9;  // whole numbers within 1e-9 of an angle

// Whole-number cosine and sine; exact at 0 and 45 degrees.
struct Slope {
  std::int64_t cosine, sine;
};
Slope slope_of(double degrees) {
  if (degrees == 0 || degrees == 45) {
    return {1, degrees == 0 ? 0 : 1};
  }
  const double angle = degrees * std::numbers::pi / 180;
  return {std::llround(kScale * std::cos(angle)), std::llround(kScale * std::sin(angle))};
}

HalfSpace toward(int axis, bool positive, geometry::Length at) {
  HalfSpace space{};
  space.normal[index(axis)] = positive ? 1 : -1;
  space.through[index(axis)] = at;
  return space;
}

// A channel with leaning sides: its floor is the box's, and it narrows towards the face.
std::vector<HalfSpace> dovetail_of(const Part& part, const Channel& c) {
  const LatticeBox box = box_of(part, c);
  const int across = 3 - c.on.axis - c.runs;
  std::vector<HalfSpace> prism;
  for (const int axis : {c.on.axis, c.runs}) {
    prism.push_back(toward(axis, false, box.lo[index(axis)]));
    prism.push_back(toward(axis, true, box.hi[index(axis)]));
  }
  const Slope slope = slope_of(c.lean_deg);
  const geometry::Length floor = c.on.positive ? box.lo[index(c.on.axis)] : box.hi[index(c.on.axis)];
  for (const bool high : {false, true}) {
    HalfSpace side = toward(across, high, high ? box.hi[index(across)] : box.lo[index(across)]);
    side.normal[index(across)] *= slope.cosine;
    side.normal[index(c.on.axis)] = c.on.positive ? slope.sine : -slope.sine;
    side.through[index(c.on.axis)] = floor;
    prism.push_back(side);
  }
  return prism;
}

std::vector<HalfSpace> prism_of(const Part& part, const Hole& h) {
  std::array<geometry::Length, 3> centre{};
  for (std::size_t i = 0; i < 2; ++i) {
    centre[index(axes_of(h.on)[i])] = h.at[i];
  }
  std::vector<HalfSpace> prism = cylinder(h.on.axis, centre, h.diameter);
  const geometry::Length size = part.size(h.on.axis);
  prism.push_back(toward(h.on.axis, false, h.on.positive ? size - h.depth : geometry::Length()));
  prism.push_back(toward(h.on.axis, true, h.on.positive ? size : h.depth));
  return prism;
}

// The plane leans from the edge between the cut side and the long face inward, `angle` off square.
HalfSpace plane_of(const Part& part, const Mitre& m) {
  const auto [out, in] = slope_of(m.angle_deg);
  HalfSpace keep{};
  keep.normal[index(m.side.axis)] = m.side.positive ? out : -out;
  keep.normal[index(m.long_face.axis)] = m.long_face.positive ? -in : in;
  for (const Face face : {m.side, m.long_face}) {
    keep.through[index(face.axis)] = face.positive ? part.size(face.axis) : geometry::Length();
  }
  return keep;
}

}  // namespace

std::vector<geometry::HalfSpace> cylinder(int axis, const std::array<geometry::Length, 3>& centre,
                                          geometry::Length diameter) {
  constexpr int kSides = 12;
  // Half the width of the prism whose outline is as long as the circle's: pi d / (2 n tan(pi / n)).
  const double apothem =
      std::numbers::pi * diameter.mm() / (2 * kSides * std::tan(std::numbers::pi / kSides));
  const std::size_t u = index(axis == 0 ? 1 : 0), v = index(axis == 2 ? 1 : 2);
  std::vector<HalfSpace> prism;
  for (int side = 0; side < kSides; ++side) {
    const double angle = 2 * std::numbers::pi * side / kSides;
    HalfSpace space{};
    space.through = centre;
    space.normal[u] = std::llround(kScale * std::cos(angle));
    space.normal[v] = std::llround(kScale * std::sin(angle));
    space.through[u] += geometry::Length::nm(std::llround(apothem * 1e6 * std::cos(angle)));
    space.through[v] += geometry::Length::nm(std::llround(apothem * 1e6 * std::sin(angle)));
    prism.push_back(space);
  }
  return prism;
}

std::array<int, 2> axes_of(Face face) {
  return {face.axis == 0 ? 1 : 0, face.axis == 2 ? 1 : 2};
}

std::string kind_of(const Cut& cut) {
  return std::visit(
      Overloaded{[](const Rabbet&) { return "rabbet"; },
                 [](const Channel& c) { return c.across_grain ? "dado" : "groove"; },
                 [](const Notch&) { return "notch"; }, [](const Mortise&) { return "mortise"; },
                 [](const Tenon&) { return "tenon"; }, [](const Mitre&) { return "mitre"; },
                 [](const Fingers&) { return "fingers"; }, [](const Hole&) { return "hole"; }},
      cut.shape);
}

CutTools tools_of(const Part& part, const Cut& cut) {
  return std::visit(Overloaded{[&](const Notch& n) {
                                 LatticeBox box;
                                 for (std::size_t i = 0; i < 3; ++i) {
                                   box.lo[i] = n.from[i];
                                   box.hi[i] = n.from[i] + n.size[i];
                                 }
                                 return CutTools{{box}, {}, {}};
                               },
                               [&](const Tenon& t) {
                                 return CutTools{boxes_of(part, t), {}, {}};
                               },
                               [&](const Fingers& f) {
                                 return CutTools{boxes_of(part, f), {}, {}};
                               },
                               [&](const Hole& h) {
                                 return CutTools{{}, prism_of(part, h), {}};
                               },
                               [&](const Channel& c) {
                                 return c.lean_deg > 0 ? CutTools{{}, dovetail_of(part, c), {}}
                                                       : CutTools{{box_of(part, c)}, {}, {}};
                               },
                               [&](const Mitre& m) {
                                 return CutTools{{}, {}, plane_of(part, m)};
                               },
                               [&](const auto& shape) {
                                 return CutTools{{box_of(part, shape)}, {}, {}};
                               }},
                    cut.shape);
}

}  // namespace planner::work
