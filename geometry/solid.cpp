#include "geometry/solid.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <tuple>
#include <utility>

#include "geometry/exact/body.h"

namespace geometry {
namespace {

Solid make_solid(Cells cells) {
  return Solid(std::make_shared<Solid::Body>(std::move(cells)));
}

ExactPlane plane_of(const HalfSpace& half) {
  std::array<Rational, 3> normal;
  Rational offset = 0;
  for (std::size_t k = 0; k < 3; ++k) {
    normal[k] = Rational(half.normal[k]);
    offset += normal[k] * Rational(half.through[k].nanometres());
  }
  return make_plane(normal, offset);
}

// Where a box lies against a half space's plane, exactly.
struct Reach {
  bool below = false, above = false;  // has corners strictly on that side
};

Reach reach(const Cuboid& box, const HalfSpace& half) {
  Int128 lowest = 0, highest = 0;
  for (std::size_t k = 0; k < 3; ++k) {
    const Nm through = half.through[k].nanometres();
    const Int128 a = Int128{half.normal[k]} * (box.lo[k] - through);
    const Int128 b = Int128{half.normal[k]} * (box.hi[k] - through);
    lowest += std::min(a, b);
    highest += std::max(a, b);
  }
  return {lowest<0, highest> 0};
}

// The axis a half space looks along, where it is one.
std::optional<std::size_t> sole_axis(const HalfSpace& half) {
  std::optional<std::size_t> axis;
  for (std::size_t k = 0; k < 3; ++k) {
    if (half.normal[k] != 0) {
      if (axis) {
        return std::nullopt;
      }
      axis = k;
    }
  }
  return axis;
}

// Parts `from` at a half space's plane: what lies in it to `below`, the rest to `above`.
void part(Cells from, const HalfSpace& half, Cells& below, Cells& above) {
  const std::optional<std::size_t> axis = sole_axis(half);
  std::vector<Cell> oblique = std::move(from.cells);
  for (const Cuboid& box : from.boxes) {
    const Reach r = reach(box, half);
    if (!r.above) {
      below.boxes.push_back(box);
    } else if (!r.below) {
      above.boxes.push_back(box);
    } else if (axis) {
      Cuboid low = box, high = box;
      low.hi[*axis] = high.lo[*axis] = half.through[*axis].nanometres();
      const bool up = half.normal[*axis] > 0;
      below.boxes.push_back(up ? low : high);
      above.boxes.push_back(up ? high : low);
    } else {
      oblique.push_back(to_cell(box));
    }
  }
  if (oblique.empty()) {
    return;
  }
  const ExactPlane plane = plane_of(half);
  for (const Cell& cell : oblique) {
    Halves halves = split(cell, plane);
    if (halves.below) {
      below.cells.push_back(std::move(*halves.below));
    }
    if (halves.above) {
      above.cells.push_back(std::move(*halves.above));
    }
  }
}

void append(Cells from, Cells& to) {
  to.boxes.insert(to.boxes.end(), from.boxes.begin(), from.boxes.end());
  std::move(from.cells.begin(), from.cells.end(), std::back_inserter(to.cells));
}

std::array<HalfSpace, 6> half_spaces(const LatticeBox& box) {
  std::array<HalfSpace, 6> halves{};
  for (std::size_t k = 0; k < 3; ++k) {
    halves[2 * k].normal[k] = -1;
    halves[2 * k].through = box.lo;
    halves[2 * k + 1].normal[k] = 1;
    halves[2 * k + 1].through = box.hi;
  }
  return halves;
}

// Takes the tool out of one cell at a time, so that a cell the tool misses stays whole.
Cells without(const Cells& all, std::span<const HalfSpace> tool) {
  Cells kept;
  const auto cut_one = [&](Cells one) {
    Cells outside, inside = one;
    for (const HalfSpace& half : tool) {
      Cells rest;
      part(std::move(inside), half, rest, outside);
      inside = std::move(rest);
      if (inside.size() == 0) {
        break;
      }
    }
    append(inside.size() == 0 ? std::move(one) : std::move(outside), kept);
  };
  for (const Cuboid& box : all.boxes) {
    cut_one({{box}, {}});
  }
  for (const Cell& cell : all.cells) {
    cut_one({{}, {cell}});
  }
  return kept;
}

template <class Plane, class Piece>
void add_facets(const std::vector<Sheet<Plane, Piece>>& sheets, std::vector<Facet>& out) {
  for (const Sheet<Plane, Piece>& sheet : sheets) {
    out.push_back(
        {unit_normal(sheet.plane), offset_mm(sheet.plane), regions_of(sheet), area_mm2(sheet)});
  }
}

}  // namespace

Solid board(const LatticeBox& box) {
  return make_solid({{to_cuboid(box)}, {}});
}

Solid cut(const Solid& solid, const LatticeBox& tool) {
  return cut(solid, std::span(&tool, 1));
}

Solid cut(const Solid& solid, std::span<const LatticeBox> tools) {
  Cells cells = solid.body().cells;
  std::vector<Cuboid> cuboids;
  for (const LatticeBox& tool : tools) {
    cuboids.push_back(to_cuboid(tool));
    if (!cells.cells.empty()) {
      append(without({{}, std::exchange(cells.cells, {})}, half_spaces(tool)), cells);
    }
  }
  std::vector<Cuboid> boxes;
  for (const Cuboid& box : cells.boxes) {
    subtract(box, cuboids, boxes);
  }
  cells.boxes = std::move(boxes);
  return make_solid(std::move(cells));
}

Solid clip(const Solid& solid, const HalfSpace& keep) {
  Cells below, above;
  part(solid.body().cells, keep, below, above);
  return make_solid(std::move(below));
}

Solid cut(const Solid& solid, std::span<const HalfSpace> tool) {
  return make_solid(without(solid.body().cells, tool));
}

bool is_empty(const Solid& solid) {
  return solid.body().cells.size() == 0;
}

int piece_count(const Solid& solid) {
  const Solid::Body& body = solid.body();
  return body.cells.on_lattice() ? body.lattice_surface().piece_count
                                 : body.exact_surface().piece_count;
}

double volume_mm3(const Solid& solid) {
  if (solid.body().drawn) {
    return solid.body().drawn->volume_mm3;
  }
  const Cells& all = solid.body().cells;
  Int128 boxes = 0;
  for (const Cuboid& box : all.boxes) {
    boxes += volume_nm3(box);
  }
  if (all.on_lattice()) {
    return rounded_quotient(boxes, kNm3PerMm3);
  }
  Rational sum = to_rational(boxes);
  for (const Cell& cell : all.cells) {
    sum += volume_nm3(cell);
  }
  return to_double(sum / kNm3PerMm3);
}

Box bounds(const Solid& solid) {
  return solid.body().bounds();
}

Point centroid(const Solid& solid) {
  if (solid.body().drawn) {
    return solid.body().drawn->centroid;
  }
  double volume = 0;
  Direction moment;
  for (const RoundedCell& cell : solid.body().rounded()) {
    volume += cell.volume_mm3;
    moment = moment + cell.volume_mm3 * (cell.centroid - Point{});
  }
  return volume > 0 ? Point{} + (1 / volume) * moment : Point{};
}

std::vector<Facet> facets(const Solid& solid) {
  const Solid::Body& body = solid.body();
  std::vector<Facet> found;
  if (body.cells.on_lattice()) {
    add_facets(body.lattice_surface().sheets, found);
  } else {
    add_facets(body.exact_surface().sheets, found);
  }
  std::stable_sort(found.begin(), found.end(), [](const Facet& a, const Facet& b) {
    return std::tie(a.normal.x, a.normal.y, a.normal.z, a.offset_mm) <
           std::tie(b.normal.x, b.normal.y, b.normal.z, b.offset_mm);
  });
  return found;
}

std::vector<std::vector<Point>> cell_points(const Solid& solid) {
  std::vector<std::vector<Point>> all;
  for (const RoundedCell& cell : solid.body().rounded()) {
    all.push_back(cell.corners);
  }
  return all;
}

}  // namespace geometry
