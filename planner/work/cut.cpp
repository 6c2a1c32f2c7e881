#include "planner/work/cut.h"

#include <cmath>
#include <cstdint>
#include <numbers>
#include <numeric>
#include <utility>

#include "geometry/elementary.h"

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
  return {std::llround(kScale * geometry::cosine(angle)), std::llround(kScale * geometry::sine(angle))};
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

// A row of tails across a board, seen on the face that shows their shape: u runs from their ends
// inward along one axis, v across the board along another.
struct TailRow {
  int u, v;
  bool u_rises;            // u grows with the coordinate
  geometry::Length end;    // where u is 0
  geometry::Length from, span, reach;
  int count, slope;

  // Halfway along a tail takes two thirds of its share of the row, a pin the rest (ours).
  geometry::Length half_width() const { return span / (3 * count) + reach / (2 * slope); }
  geometry::Length middle(int tail) const { return from + (2 * tail + 1) * span / (2 * count); }

  // What lies below the upper cheek of a tail, or above its lower one; with `beyond` what lies on
  // the other side of that cheek.
  HalfSpace cheek(int tail, bool upper, bool beyond) const {
    HalfSpace space{};
    const int out = upper ? 1 : -1, side = beyond ? -1 : 1;
    space.normal[index(v)] = side * out * slope;
    space.normal[index(u)] = side * (u_rises ? 1 : -1);
    space.through[index(v)] = middle(tail) + out * half_width();
    space.through[index(u)] = end;
    return space;
  }
};

template <class Row>
TailRow tail_row(const Part& part, const Row& row, Face u, int v, geometry::Length end,
                 geometry::Length reach) {
  const geometry::Length from = row.from.value_or(geometry::Length());
  return {u.axis, v,     !u.positive, end,       from, row.to.value_or(part.size(v)) - from,
          reach,  row.count, row.slope};
}

// The planes that a box lies between.
std::vector<HalfSpace> sides_of(const LatticeBox& box) {
  std::vector<HalfSpace> sides;
  for (int axis = 0; axis < 3; ++axis) {
    sides.push_back(toward(axis, false, box.lo[index(axis)]));
    sides.push_back(toward(axis, true, box.hi[index(axis)]));
  }
  return sides;
}

// Between the tails and beside the outer two.
std::vector<std::vector<HalfSpace>> sockets_of(const Part& part, const Tails& t) {
  const int v = t.side.axis == part.along ? part.across() : part.along;
  const geometry::Length end = t.side.positive ? part.size(t.side.axis) : geometry::Length();
  const TailRow row = tail_row(part, t, t.side, v, end, t.depth);
  LatticeBox layer = whole(part);
  limit_under(layer, part, t.side, t.depth);
  limit(layer, v, row.from, row.from + row.span);
  std::vector<std::vector<HalfSpace>> sockets;
  for (int gap = 0; gap <= t.count; ++gap) {
    std::vector<HalfSpace> socket = sides_of(layer);
    if (gap > 0) {
      socket.push_back(row.cheek(gap - 1, true, true));
    }
    if (gap < t.count) {
      socket.push_back(row.cheek(gap, false, true));
    }
    sockets.push_back(std::move(socket));
  }
  return sockets;
}

// Where the mate's tails come to lie.
std::vector<std::vector<HalfSpace>> sockets_of(const Part& part, const Pins& p) {
  const int v = 3 - p.side.axis - p.on.axis;
  const geometry::Length end = p.on.positive ? part.size(p.on.axis) - p.reach : p.reach;
  const TailRow row = tail_row(part, p, {p.on.axis, !p.on.positive}, v, end, p.reach);
  LatticeBox layer = whole(part);
  limit_under(layer, part, p.side, p.depth);
  limit_under(layer, part, p.on, p.reach);
  std::vector<std::vector<HalfSpace>> sockets;
  for (int tail = 0; tail < p.count; ++tail) {
    std::vector<HalfSpace> socket = sides_of(layer);
    socket.push_back(row.cheek(tail, true, false));
    socket.push_back(row.cheek(tail, false, false));
    sockets.push_back(std::move(socket));
  }
  return sockets;
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

// Leans the mitre's plane along the third axis too, blade tilted and gauge turned: its normal is then
// cos blade cos gauge, sin blade, cos blade sin gauge.
void taper(const Part& part, const Mitre& m, HalfSpace& keep) {
  const double blade = m.angle_deg * std::numbers::pi / 180, gauge = m.taper_deg * std::numbers::pi / 180;
  const int third = 3 - m.side.axis - m.long_face.axis;
  const std::int64_t out = std::llround(kScale * geometry::cosine(blade) * geometry::cosine(gauge)),
                     in = std::llround(kScale * geometry::sine(blade));
  keep.normal[index(m.side.axis)] = m.side.positive ? out : -out;
  keep.normal[index(m.long_face.axis)] = m.long_face.positive ? -in : in;
  keep.normal[index(third)] = std::llround(kScale * geometry::cosine(blade) * geometry::sine(gauge));
  keep.through[index(third)] = m.taper_deg > 0 ? geometry::Length() : part.size(third);
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
  if (m.taper_deg != 0) {
    taper(part, m, keep);
  }
  return keep;
}

// A box that stands square on the mitre: sawn in along `in`, its cheeks along `down` the mitre.
std::vector<HalfSpace> slot_of(const Part& part, const Kerf& k) {
  const auto [cosine, sine] = slope_of(k.angle_deg);
  const double angle = k.angle_deg * std::numbers::pi / 180;
  const int u = k.side.axis, v = k.long_face.axis, run = 3 - u - v;
  const std::int64_t from_side = k.side.positive ? -1 : 1, from_face = k.long_face.positive ? -1 : 1;
  // From the arris down the mitre, and from the mitre into the wood, both of one length.
  std::array<std::int64_t, 3> down{}, in{};
  down[index(u)] = from_side * sine;
  down[index(v)] = from_face * cosine;
  in[index(u)] = from_side * cosine;
  in[index(v)] = -from_face * sine;
  std::array<geometry::Length, 3> middle{};
  const auto from = [&](Face face, double mm) {
    const geometry::Length step = geometry::Length::nm(std::llround(mm * 1e6));
    return face.positive ? part.size(face.axis) - step : step;
  };
  const double off = k.flat ? 0 : k.in.mm();
  middle[index(u)] = from(k.side, off * geometry::tangent(angle));
  middle[index(v)] = from(k.long_face, off);
  const double scale = geometry::hypotenuse(static_cast<double>(cosine), static_cast<double>(sine));
  const auto plane = [&](const std::array<std::int64_t, 3>& normal, int way, double off_mm) {
    HalfSpace space{};
    for (const int axis : {u, v}) {
      const auto i = index(axis);
      space.normal[i] = way * normal[i];
      const double step = off_mm * static_cast<double>(normal[i]) / scale;
      space.through[i] = middle[i] + geometry::Length::nm(std::llround(way * step * 1e6));
    }
    return space;
  };
  const double half = k.width.mm() / 2;
  // Beyond the mitre there is no wood.
  std::vector<HalfSpace> slot = {plane(in, 1, k.depth.mm()), plane(in, -1, half)};
  if (k.flat) {
    const double far = part.size(u).mm() + part.size(v).mm();
    const geometry::Length low = k.in - k.width / 2;
    slot.insert(slot.end(), {plane(down, 1, far), plane(down, -1, far), toward(run, false, low),
                             toward(run, true, low + k.width)});
  } else {
    slot.insert(slot.end(), {plane(down, 1, half), plane(down, -1, half),
                             toward(run, false, geometry::Length()),
                             toward(run, true, part.size(run))});
  }
  return slot;
}

// The plane through a line on each of the two faces.
HalfSpace plane_of(const Part& part, const Chamfer& c) {
  HalfSpace keep{};
  const std::int64_t width = c.width.nanometres(), depth = c.depth.nanometres();
  const std::int64_t whole = std::gcd(width, depth);
  keep.normal[index(c.on.axis)] = (c.on.positive ? width : -width) / whole;
  keep.normal[index(c.side.axis)] = (c.side.positive ? depth : -depth) / whole;
  keep.through[index(c.on.axis)] = c.on.positive ? part.size(c.on.axis) : geometry::Length();
  keep.through[index(c.side.axis)] = c.side.positive ? part.size(c.side.axis) - c.width : c.width;
  return keep;
}

}  // namespace

std::vector<geometry::HalfSpace> cylinder(int axis, const std::array<geometry::Length, 3>& centre,
                                          geometry::Length diameter) {
  constexpr int kSides = 12;
  // Half the width of the prism whose outline is as long as the circle's: pi d / (2 n tan(pi / n)).
  const double apothem =
      std::numbers::pi * diameter.mm() / (2 * kSides * geometry::tangent(std::numbers::pi / kSides));
  const std::size_t u = index(axis == 0 ? 1 : 0), v = index(axis == 2 ? 1 : 2);
  std::vector<HalfSpace> prism;
  for (int side = 0; side < kSides; ++side) {
    const double angle = 2 * std::numbers::pi * side / kSides;
    HalfSpace space{};
    space.through = centre;
    space.normal[u] = std::llround(kScale * geometry::cosine(angle));
    space.normal[v] = std::llround(kScale * geometry::sine(angle));
    space.through[u] += geometry::Length::nm(std::llround(apothem * 1e6 * geometry::cosine(angle)));
    space.through[v] += geometry::Length::nm(std::llround(apothem * 1e6 * geometry::sine(angle)));
    prism.push_back(space);
  }
  return prism;
}

int most_tails(geometry::Length span, geometry::Length reach, int slope) {
  // A pin is a third of its share of the row halfway along, and narrows by reach / slope in all
  // from there to its end.
  return static_cast<int>(span.nanometres() /
                          (3 * (kThinnestPin + reach / slope)).nanometres());
}

std::array<int, 2> axes_of(Face face) {
  return {face.axis == 0 ? 1 : 0, face.axis == 2 ? 1 : 2};
}

std::string kind_of(const Cut& cut) {
  return std::visit(
      Overloaded{[](const Rabbet&) { return "rabbet"; },
                 [](const Channel& c) { return c.across_grain ? "dado" : "groove"; },
                 [](const Notch&) { return "notch"; }, [](const Mortise&) { return "mortise"; },
                 [](const Tenon&) { return "tenon"; }, [](const Mitre&) { return "miter"; },
                 [](const Fingers&) { return "fingers"; }, [](const Tails&) { return "tails"; },
                 [](const Pins&) { return "pins"; }, [](const Kerf&) { return "kerf"; },
                 [](const Chamfer&) { return "chamfer"; },
                 [](const Hole&) { return "hole"; }},
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
                                 return CutTools{{}, {prism_of(part, h)}, {}};
                               },
                               [&](const Channel& c) {
                                 return c.lean_deg > 0 ? CutTools{{}, {dovetail_of(part, c)}, {}}
                                                       : CutTools{{box_of(part, c)}, {}, {}};
                               },
                               [&](const Tails& t) {
                                 return CutTools{{}, sockets_of(part, t), {}};
                               },
                               [&](const Pins& p) {
                                 return CutTools{{}, sockets_of(part, p), {}};
                               },
                               [&](const Kerf& k) {
                                 return CutTools{{}, {slot_of(part, k)}, {}};
                               },
                               [&](const Mitre& m) {
                                 return CutTools{{}, {}, plane_of(part, m)};
                               },
                               [&](const Chamfer& c) {
                                 return CutTools{{}, {}, plane_of(part, c)};
                               },
                               [&](const auto& shape) {
                                 return CutTools{{box_of(part, shape)}, {}, {}};
                               }},
                    cut.shape);
}

}  // namespace planner::work
