// A body as disjoint convex cells with exact coordinates, and the planar facets of their union.
// A cut is a convex tool: each cell is split by the tool's planes, what falls outside is kept. That
// one operation replaces mesh booleans: always closed, no trouble with coplanar faces.
#pragma once
#include <memory>
#include <span>
#include <stdexcept>
#include <vector>

#include "geometry/polygon.h"
#include "geometry/vector.h"

namespace geometry {

// {p : normal . (p - through) <= 0}. The normal is a whole-number vector of any length (an angle
// that is not rational is approximated by the caller, to 1e-9); `through` is on the lattice.
struct HalfSpace {
  std::array<std::int64_t, 3> normal;
  std::array<Length, 3> through;
};

// A facet of a solid's surface: one plane, one normal, all the regions the surface has there.
struct Facet {
  Direction normal;  // outward
  double offset_mm;  // of its plane along the normal
  std::vector<Polygon> regions;
  double area_mm2;
};

class Solid {
 public:
  struct Body;  // exact cells and what follows from them (body.h)
  explicit Solid(std::shared_ptr<const Body> body) : body_(std::move(body)) {}
  const Body& body() const { return *body_; }

 private:
  std::shared_ptr<const Body> body_;  // immutable, so copies share it
};

// The whole box. REQUIRES: lo < hi on every axis.
Solid board(const LatticeBox& box);

// What is left when the tool is taken out. The result may be empty or in several pieces.
Solid cut(const Solid& solid, const LatticeBox& tool);
// The same for many tools at once, in order; quicker than one by one where there are thousands.
Solid cut(const Solid& solid, std::span<const LatticeBox> tools);

// What lies in the half space: a mitre or a taper is one of these.
Solid clip(const Solid& solid, const HalfSpace& keep);

// What is left when the intersection of all half spaces is taken out. REQUIRES: it is bounded.
Solid cut(const Solid& solid, std::span<const HalfSpace> tool);

bool is_empty(const Solid& solid);
// 1 for a sound part; more when cuts have parted it. Cells that share a facet area belong together.
int piece_count(const Solid& solid);
double volume_mm3(const Solid& solid);  // exact, rounded once
Box bounds(const Solid& solid);
Point centroid(const Solid& solid);  // of the volume

// The surface, sorted by normal and offset; facets that meet in one plane are one facet, its
// regions merged. Coordinates are the exact ones rounded once.
std::vector<Facet> facets(const Solid& solid);

// The convex cells as point sets, for tests and for drawing hidden lines.
std::vector<std::vector<Point>> cell_points(const Solid& solid);

}  // namespace geometry
