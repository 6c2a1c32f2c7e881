// What a Solid holds. For geometry/*.cpp only.
#pragma once
#include <mutex>
#include <optional>
#include <span>
#include <vector>

#include "geometry/exact/rounded_cell.h"
#include "geometry/exact/surface.h"
#include "geometry/solid.h"

namespace geometry {

// Disjoint convex cells: boxes on the lattice, and `cells` for whatever an oblique plane has cut.
struct Cells {
  std::vector<Cuboid> boxes;
  std::vector<Cell> cells;
  bool on_lattice() const { return cells.empty(); }
  std::size_t size() const { return boxes.size() + cells.size(); }
};

// The i-th of boxes and cells in a row.
Cell exact_cell(const Cells& all, std::size_t i);

RoundedCell round_cell(const Cuboid& box);
RoundedCell round_cell(const Cell& cell);

// A sheet of the exact surface in doubles, to tell soon what is far from it.
struct RoundedSheet {
  Direction normal;  // outward
  double offset_mm;
  std::vector<Point> corners;  // of all its pieces
  Box box;
};

// What a drawing says of a body, where its cells only nearly fill it.
struct Drawn {
  Surface<ExactPlane, ConvexPolygon> flats;  // its surface but for what is curved
  double volume_mm3 = 0;
  Point centroid;
};

// What follows from the cells is worked out when first asked for; safe from several threads.
struct Solid::Body {
  explicit Body(Cells all) : cells(std::move(all)) {}
  // REQUIRES: not all.on_lattice(); what lies on the lattice is drawn by its cells.
  Body(Cells all, Drawn as_drawn) : cells(std::move(all)), drawn(std::move(as_drawn)) {}
  const Cells cells;
  const std::optional<Drawn> drawn;  // else the cells say it

  // REQUIRES: cells.on_lattice().
  const Surface<LatticePlane, Rect>& lattice_surface() const;
  const Surface<ExactPlane, ConvexPolygon>& exact_surface() const;
  const std::vector<RoundedSheet>& rounded_sheets() const;  // as exact_surface().sheets
  const std::vector<RoundedCell>& rounded() const;
  const Box& bounds() const;  // of an empty body: lo = hi = 0

 private:
  mutable std::once_flag lattice_once_, exact_once_, sheets_once_, rounded_once_, bounds_once_;
  mutable Surface<LatticePlane, Rect> lattice_;
  mutable Surface<ExactPlane, ConvexPolygon> exact_;
  mutable std::vector<RoundedSheet> rounded_sheets_;
  mutable std::vector<RoundedCell> rounded_;
  mutable Box bounds_;
};

}  // namespace geometry
