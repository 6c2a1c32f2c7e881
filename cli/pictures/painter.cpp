#include "cli/pictures/painter.h"

#include <algorithm>
#include <limits>

namespace cli::pictures {
namespace {

using geometry::Direction;
using geometry::Point;
using geometry::Ring;

// Nearer to a plane than this is in it: drawings are read to 0.1 mm, parts may lie a gap apart.
constexpr double kInPlane_mm = 0.02;

struct Plane {
  Direction normal;
  double offset_mm = 0;
  double above(const Point& p) const { return dot(p, normal) - offset_mm; }
};
Plane plane_of(const Face& face) {
  return {face.normal, dot(face.rings.front().front(), face.normal)};
}

geometry::Extent heights(const Face& face, const Plane& plane) {
  geometry::Extent out{std::numeric_limits<double>::max(), std::numeric_limits<double>::lowest()};
  for (const Ring& ring : face.rings) {
    for (const Point& p : ring) {
      const double h = plane.above(p);
      out = {std::min(out.lo, h), std::max(out.hi, h)};
    }
  }
  return out;
}

enum class Where { behind, in_it, before, both };
Where where(const Face& face, const Plane& plane) {
  const geometry::Extent h = heights(face, plane);
  const bool behind = h.lo < -kInPlane_mm, before = h.hi > kInPlane_mm;
  return behind && before ? Where::both : behind ? Where::behind : before ? Where::before : Where::in_it;
}

// The part of a ring on one side of the plane. Where it falls apart, its pieces stay joined along the
// cut, which encloses nothing.
Ring half_of(const Ring& ring, const Plane& plane, double side) {
  Ring out;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point &a = ring[i], &b = ring[(i + 1) % ring.size()];
    const double ha = side * plane.above(a), hb = side * plane.above(b);
    if (ha >= 0) {
      out.push_back(a);
    }
    if ((ha > 0 && hb < 0) || (ha < 0 && hb > 0)) {
      out.push_back(a + (ha / (ha - hb)) * (b - a));
    }
  }
  return out;
}

Face half_of(const Face& face, const Plane& plane, double side) {
  Face out{face.normal, {}, face.fill, face.body};
  for (const Ring& ring : face.rings) {
    Ring half = half_of(ring, plane, side);
    if (half.size() >= 3) {
      out.rings.push_back(std::move(half));
    }
  }
  return out;
}

// Of a few of the faces, the one whose plane cuts the fewest others.
std::size_t best_splitter(const std::vector<Face>& faces) {
  constexpr std::size_t kTries = 25;
  const std::size_t stride = std::max<std::size_t>(1, faces.size() / kTries);
  std::size_t best = 0;
  auto fewest = std::numeric_limits<std::ptrdiff_t>::max();
  for (std::size_t i = 0; i < faces.size(); i += stride) {
    const Plane plane = plane_of(faces[i]);
    const auto cut = std::count_if(faces.begin(), faces.end(), [&](const Face& other) {
      return where(other, plane) == Where::both;
    });
    if (cut < fewest) {
      fewest = cut;
      best = i;
    }
  }
  return best;
}

void paint(std::vector<Face> faces, std::vector<Face>& out) {
  if (faces.empty()) {
    return;
  }
  const std::size_t splitter = best_splitter(faces);
  const Plane plane = plane_of(faces[splitter]);
  std::vector<Face> behind, within, before;
  for (std::size_t i = 0; i < faces.size(); ++i) {
    Face& face = faces[i];
    // The one that the plane is of is in it, however badly drawn: each round takes one away at least.
    switch (i == splitter ? Where::in_it : where(face, plane)) {
      case Where::behind:
        behind.push_back(std::move(face));
        break;
      case Where::before:
        before.push_back(std::move(face));
        break;
      case Where::in_it:
        within.push_back(std::move(face));
        break;
      case Where::both:
        for (const auto& [side, into] : {std::pair{-1.0, &behind}, std::pair{1.0, &before}}) {
          if (Face half = half_of(face, plane, side); !half.rings.empty()) {
            into->push_back(std::move(half));
          }
        }
        break;
    }
  }
  faces.clear();
  paint(std::move(behind), out);
  std::move(within.begin(), within.end(), std::back_inserter(out));
  paint(std::move(before), out);
}

}  // namespace

std::vector<Face> painted_order(std::vector<Face> faces, const Direction& eye) {
  constexpr double kFacing = 1e-6;
  std::erase_if(faces, [&](const Face& face) {
    // So said, a face without a normal is left out too.
    return !(dot(face.normal, eye) > kFacing) || face.rings.empty();
  });
  std::vector<Face> out;
  paint(std::move(faces), out);
  return out;
}

}  // namespace cli::pictures
