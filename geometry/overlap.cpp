#include "geometry/overlap.h"

#include <algorithm>
#include <limits>
#include <optional>

#include "geometry/exact/body.h"
#include "geometry/separation.h"

namespace geometry {
namespace {

bool apart(const Box& a, const Box& b) {
  return a.hi.x <= b.lo.x || b.hi.x <= a.lo.x || a.hi.y <= b.lo.y || b.hi.y <= a.lo.y ||
         a.hi.z <= b.lo.z || b.hi.z <= a.lo.z;
}

void widen(Box& box, const Box& by) {
  box.lo = {std::min(box.lo.x, by.lo.x), std::min(box.lo.y, by.lo.y), std::min(box.lo.z, by.lo.z)};
  box.hi = {std::max(box.hi.x, by.hi.x), std::max(box.hi.y, by.hi.y), std::max(box.hi.z, by.hi.z)};
}

Box nowhere() {
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  return {{kInfinity, kInfinity, kInfinity}, {-kInfinity, -kInfinity, -kInfinity}};
}

// What is shared so far; volumes in nm3, exact.
struct Shared {
  Int128 boxes = 0;
  Rational cells = 0;
  bool thick = false;
  Box where = nowhere();
};

void share(const Cuboid& a, const Cuboid& b, Nm sliver, Shared& shared) {
  Cuboid both{};
  Nm thinnest = std::numeric_limits<Nm>::max();
  for (std::size_t k = 0; k < 3; ++k) {
    both.lo[k] = std::max(a.lo[k], b.lo[k]);
    both.hi[k] = std::min(a.hi[k], b.hi[k]);
    thinnest = std::min(thinnest, both.hi[k] - both.lo[k]);
  }
  if (thinnest <= 0) {
    return;
  }
  shared.boxes += volume_nm3(both);
  shared.thick = shared.thick || thinnest > sliver;
  widen(shared.where, round_cell(both).box);
}

std::optional<Cell> clipped(Cell cell, const Cell& by) {
  for (const Cell::Face& face : by.faces) {
    if (!clip_below(cell, face.plane)) {
      return std::nullopt;
    }
  }
  return cell;
}

void share_cells(const Solid::Body& a, std::size_t i, const Solid::Body& b, std::size_t j,
                 double sliver_mm, Shared& shared) {
  // Bodies that only touch are told apart in doubles to far less than this.
  constexpr double kTouching = 1e-6;
  if (apart(a.rounded()[i].box, b.rounded()[j].box) ||
      !interlocked(a.rounded()[i], b.rounded()[j], kTouching)) {
    return;
  }
  const std::optional<Cell> both = clipped(exact_cell(a.cells, i), exact_cell(b.cells, j));
  if (both) {
    const RoundedCell rounded = round_cell(*both);
    shared.cells += volume_nm3(*both);
    shared.thick = shared.thick || thickness_mm(rounded) > sliver_mm;
    widen(shared.where, rounded.box);
  }
}

}  // namespace

std::vector<Overlap> find_overlaps(std::span<const Solid> solids, const Tolerance& tolerance) {
  const Nm sliver = to_nm(tolerance.sliver_mm);
  std::vector<Overlap> overlaps;
  for (std::size_t a = 0; a < solids.size(); ++a) {
    for (std::size_t b = a + 1; b < solids.size(); ++b) {
      const Solid::Body &one = solids[a].body(), &other = solids[b].body();
      if (apart(one.bounds(), other.bounds())) {
        continue;
      }
      Shared shared;
      const std::size_t boxes_a = one.cells.boxes.size(), boxes_b = other.cells.boxes.size();
      for (std::size_t i = 0; i < one.cells.size(); ++i) {
        for (std::size_t j = 0; j < other.cells.size(); ++j) {
          if (i < boxes_a && j < boxes_b) {
            share(one.cells.boxes[i], other.cells.boxes[j], sliver, shared);
          } else {
            share_cells(one, i, other, j, tolerance.sliver_mm, shared);
          }
        }
      }
      if (shared.thick) {
        const double volume = static_cast<double>(shared.boxes) + to_double(shared.cells);
        overlaps.push_back({a, b, volume / 1e18, shared.where});
      }
    }
  }
  return overlaps;
}

}  // namespace geometry
