#include "planner/cut.h"

#include <cmath>
#include <cstdint>
#include <numbers>

namespace planner {
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

void limit(LatticeBox& box, int axis, Length lo, Length hi) {
  box.lo[index(axis)] = lo;
  box.hi[index(axis)] = hi;
}

// The layer of this depth under a face.
void limit_under(LatticeBox& box, const Part& part, Face face, Length depth) {
  const Length size = part.size(face.axis);
  if (face.positive) {
    limit(box, face.axis, size - depth, size);
  } else {
    limit(box, face.axis, Length(), depth);
  }
}

LatticeBox box_of(const Part& part, const Rabbet& r) {
  LatticeBox box = whole(part);
  limit_under(box, part, r.on, r.depth);
  limit_under(box, part, r.side, r.width);
  const int run = 3 - r.on.axis - r.side.axis;
  limit(box, run, r.from.value_or(Length()), r.to.value_or(part.size(run)));
  return box;
}

LatticeBox box_of(const Part& part, const Channel& c) {
  LatticeBox box = whole(part);
  limit_under(box, part, c.on, c.depth);
  limit(box, 3 - c.on.axis - c.runs, c.offset, c.offset + c.width);
  limit(box, c.runs, c.from.value_or(Length()), c.to.value_or(part.size(c.runs)));
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
  const auto add = [&](LatticeBox box, int axis, Length lo, Length hi) {
    if (lo < hi) {
      limit(box, axis, lo, hi);
      boxes.push_back(box);
    }
  };
  const Length lo = t.from[0], hi = t.from[0] + t.size[0];
  add(end, first, Length(), lo);
  add(end, first, hi, part.size(first));
  LatticeBox middle = end;
  limit(middle, first, lo, hi);
  add(middle, second, Length(), t.from[1]);
  add(middle, second, t.from[1] + t.size[1], part.size(second));
  return boxes;
}

std::vector<LatticeBox> boxes_of(const Part& part, const Fingers& f) {
  LatticeBox end = whole(part);
  limit_under(end, part, f.side, f.depth);
  const int across = f.side.axis == part.along ? part.across() : part.along;
  const Length pitch = part.size(across) / f.count;
  std::vector<LatticeBox> boxes;
  for (int i = f.first_kept ? 1 : 0; i < f.count; i += 2) {
    // The last piece takes what the division leaves over.
    limit(end, across, i * pitch, i + 1 == f.count ? part.size(across) : (i + 1) * pitch);
    boxes.push_back(end);
  }
  return boxes;
}

// The plane leans from the edge between the cut side and the long face inward, `angle` off square.
HalfSpace plane_of(const Part& part, const Mitre& m) {
  constexpr double kScale = 1e9;  // whole numbers within 1e-9 of the angle
  const double angle = m.angle_deg * std::numbers::pi / 180;
  const bool diagonal = m.angle_deg == 45;
  const std::int64_t out = diagonal ? 1 : std::llround(kScale * std::cos(angle));
  const std::int64_t in = diagonal ? 1 : std::llround(kScale * std::sin(angle));
  HalfSpace keep{};
  keep.normal[index(m.side.axis)] = m.side.positive ? out : -out;
  keep.normal[index(m.long_face.axis)] = m.long_face.positive ? -in : in;
  for (const Face face : {m.side, m.long_face}) {
    keep.through[index(face.axis)] = face.positive ? part.size(face.axis) : Length();
  }
  return keep;
}

}  // namespace

std::array<int, 2> axes_of(Face face) {
  return {face.axis == 0 ? 1 : 0, face.axis == 2 ? 1 : 2};
}

std::string kind_of(const Cut& cut) {
  return std::visit(
      Overloaded{[](const Rabbet&) { return "rabbet"; },
                 [](const Channel& c) { return c.across_grain ? "dado" : "groove"; },
                 [](const Notch&) { return "notch"; }, [](const Mortise&) { return "mortise"; },
                 [](const Tenon&) { return "tenon"; }, [](const Mitre&) { return "mitre"; },
                 [](const Fingers&) { return "fingers"; }},
      cut.shape);
}

CutTools tools_of(const Part& part, const Cut& cut) {
  return std::visit(Overloaded{[&](const Notch& n) {
                                 LatticeBox box;
                                 for (std::size_t i = 0; i < 3; ++i) {
                                   box.lo[i] = n.from[i];
                                   box.hi[i] = n.from[i] + n.size[i];
                                 }
                                 return CutTools{{box}, {}};
                               },
                               [&](const Tenon& t) {
                                 return CutTools{boxes_of(part, t), {}};
                               },
                               [&](const Fingers& f) {
                                 return CutTools{boxes_of(part, f), {}};
                               },
                               [&](const Mitre& m) {
                                 return CutTools{{}, plane_of(part, m)};
                               },
                               [&](const auto& shape) {
                                 return CutTools{{box_of(part, shape)}, {}};
                               }},
                    cut.shape);
}

}  // namespace planner
