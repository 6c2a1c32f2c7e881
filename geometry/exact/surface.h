// What of the faces of disjoint cells lies on the surface of their union: where two cells touch,
// both faces vanish. For geometry/*.cpp only.
#pragma once
#include <algorithm>
#include <numeric>
#include <span>
#include <utility>
#include <vector>

#include "geometry/exact/cell.h"
#include "geometry/exact/convex_polygon.h"
#include "geometry/polygon.h"

namespace geometry {

// A plane across an axis and which way the face in it looks.
struct LatticePlane {
  int axis = 0;
  int sign = 1;
  Nm offset = 0;
};
inline bool same_plane(const LatticePlane& a, const LatticePlane& b) {
  return a.axis == b.axis && a.offset == b.offset;
}
inline bool operator<(const LatticePlane& a, const LatticePlane& b) {
  return a.axis != b.axis       ? a.axis < b.axis
         : a.offset != b.offset ? a.offset < b.offset
                                : a.sign > b.sign;
}
Direction unit_normal(const LatticePlane& plane);
Direction unit_normal(const ExactPlane& plane);
double offset_mm(const LatticePlane& plane);  // along the outward unit normal
double offset_mm(const ExactPlane& plane);

// Disjoint convex pieces in one plane, looking one way. (LatticePlane, Rect) where everything is
// across an axis, else (ExactPlane, ConvexPolygon).
template <class Plane, class Piece>
struct Sheet {
  Plane plane;
  std::vector<Piece> pieces;
};
using LatticeSheet = Sheet<LatticePlane, Rect>;
using ExactSheet = Sheet<ExactPlane, ConvexPolygon>;

// Connected regions of the union, largest first, and its exact area rounded once.
std::vector<Polygon> regions_of(const LatticeSheet& sheet);
std::vector<Polygon> regions_of(const ExactSheet& sheet);
double area_mm2(const LatticeSheet& sheet);
double area_mm2(const ExactSheet& sheet);

template <class Plane, class Piece>
struct Surface {
  std::vector<Sheet<Plane, Piece>> sheets;  // by plane, none empty
  int piece_count = 0;                      // of cells joined by shared face area
};

template <class Plane, class Piece>
struct CellFace {
  Plane plane;
  Piece piece;
  std::size_t cell = 0;
};

namespace surface_detail {

class Groups {
 public:
  explicit Groups(std::size_t n) : leader_(n) { std::iota(leader_.begin(), leader_.end(), 0u); }
  std::size_t leader(std::size_t i) {
    while (leader_[i] != i) {
      i = leader_[i] = leader_[leader_[i]];
    }
    return i;
  }
  void join(std::size_t a, std::size_t b) { leader_[leader(a)] = leader(b); }
  int count() {
    int n = 0;
    for (std::size_t i = 0; i < leader_.size(); ++i) {
      n += leader(i) == i ? 1 : 0;
    }
    return n;
  }

 private:
  std::vector<std::size_t> leader_;
};

// Faces in one plane looking one way, ready to be asked which of them reach into a stretch of u.
template <class Face>
class Strip {
 public:
  explicit Strip(std::vector<const Face*> faces) : faces_(std::move(faces)) {
    std::sort(faces_.begin(), faces_.end(),
              [](const Face* a, const Face* b) { return a->piece.u0 < b->piece.u0; });
    for (const Face* f : faces_) {
      reach_.push_back(reach_.empty() ? f->piece.u1 : std::max(reach_.back(), f->piece.u1));
    }
  }
  template <class Visit>
  void visit(const Face& other, Visit visit_one) const {
    auto i = static_cast<std::size_t>(
        std::upper_bound(reach_.begin(), reach_.end(), other.piece.u0) - reach_.begin());
    for (; i < faces_.size() && faces_[i]->piece.u0 < other.piece.u1; ++i) {
      if (faces_[i]->piece.v0 < other.piece.v1 && other.piece.v0 < faces_[i]->piece.v1) {
        visit_one(*faces_[i]);
      }
    }
  }
  const std::vector<const Face*>& faces() const { return faces_; }

 private:
  std::vector<const Face*> faces_;
  std::vector<decltype(Face::piece.u0)> reach_;  // greatest u1 so far
};

}  // namespace surface_detail

// REQUIRES: the cells whose faces these are do not overlap.
template <class Plane, class Piece>
Surface<Plane, Piece> exposed(std::vector<CellFace<Plane, Piece>> faces, std::size_t cells) {
  using Face = CellFace<Plane, Piece>;
  using Strip = surface_detail::Strip<Face>;
  std::stable_sort(faces.begin(), faces.end(),
                   [](const Face& a, const Face& b) { return a.plane < b.plane; });
  surface_detail::Groups groups(cells);
  Surface<Plane, Piece> surface;
  for (auto first = faces.begin(); first != faces.end();) {
    std::vector<const Face*> looking[2];
    auto last = first;
    for (; last != faces.end() && same_plane(first->plane, last->plane); ++last) {
      looking[last->plane.sign > 0 ? 0 : 1].push_back(&*last);
    }
    first = last;
    const Strip strips[2] = {Strip(std::move(looking[0])), Strip(std::move(looking[1]))};
    for (const int way : {0, 1}) {
      Sheet<Plane, Piece> sheet;
      for (const Face* face : strips[way].faces()) {
        std::vector<Piece> rest{face->piece};
        strips[1 - way].visit(*face, [&](const Face& behind) {
          std::vector<Piece> less;
          bool touches = false;
          for (Piece& piece : rest) {
            touches = subtract(std::move(piece), behind.piece, less) || touches;
          }
          if (touches) {
            groups.join(face->cell, behind.cell);
          }
          rest = std::move(less);
        });
        std::move(rest.begin(), rest.end(), std::back_inserter(sheet.pieces));
      }
      if (!sheet.pieces.empty()) {
        sheet.plane = strips[way].faces().front()->plane;
        surface.sheets.push_back(std::move(sheet));
      }
    }
  }
  surface.piece_count = groups.count();
  return surface;
}

}  // namespace geometry
