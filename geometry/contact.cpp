#include "geometry/contact.h"

#include <algorithm>
#include <iterator>
#include <numbers>
#include <optional>
#include <tuple>

#include "geometry/elementary.h"
#include "geometry/exact/body.h"
#include "geometry/long_side.h"

namespace geometry {
namespace {

bool near(const Box& a, const Box& b, double gap_mm) {
  return a.lo.x <= b.hi.x + gap_mm && b.lo.x <= a.hi.x + gap_mm && a.lo.y <= b.hi.y + gap_mm &&
         b.lo.y <= a.hi.y + gap_mm && a.lo.z <= b.hi.z + gap_mm && b.lo.z <= a.hi.z + gap_mm;
}

struct Pair {
  std::size_t a, b;
};

// Solids whose boxes come within the gap of each other, by (a, b).
std::vector<Pair> near_pairs(std::span<const Solid> solids, double gap_mm) {
  std::vector<std::size_t> by_x;
  for (std::size_t i = 0; i < solids.size(); ++i) {
    if (!is_empty(solids[i])) {
      by_x.push_back(i);
    }
  }
  const auto box = [&](std::size_t i) -> const Box& { return solids[i].body().bounds(); };
  std::stable_sort(by_x.begin(), by_x.end(),
                   [&](std::size_t a, std::size_t b) { return box(a).lo.x < box(b).lo.x; });
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < by_x.size(); ++i) {
    const Box& a = box(by_x[i]);
    for (std::size_t j = i + 1; j < by_x.size(); ++j) {
      const Box& b = box(by_x[j]);
      if (b.lo.x > a.hi.x + gap_mm) {
        break;
      }
      if (near(a, b, gap_mm)) {
        pairs.push_back({std::min(by_x[i], by_x[j]), std::max(by_x[i], by_x[j])});
      }
    }
  }
  std::sort(pairs.begin(), pairs.end(),
            [](const Pair& p, const Pair& q) { return std::tie(p.a, p.b) < std::tie(q.a, q.b); });
  return pairs;
}

// Regions thinner than this are where two faces meet in an edge, out by a rounding.
bool is_sliver(const Polygon& region, double area, double sliver_mm) {
  double longest = 0;
  for (std::size_t i = 0; i < region.outer.size(); ++i) {
    longest = std::max(longest, length(region.outer[i] - region.outer.front()));
  }
  return area <= sliver_mm * longest;
}

template <class Plane, class Piece>
std::optional<Contact> describe(const Pair& pair, const Sheet<Plane, Piece>& shared,
                                double sliver_mm) {
  Contact contact;
  contact.a = pair.a;
  contact.b = pair.b;
  contact.normal = unit_normal(shared.plane);
  contact.area_mm2 = area_mm2(shared);
  for (Polygon& region : regions_of(shared)) {
    const double area = area_mm2(region);
    if (is_sliver(region, area, sliver_mm)) {
      contact.area_mm2 -= area;
    } else {
      contact.regions.push_back(std::move(region));
    }
  }
  if (contact.regions.empty()) {
    return std::nullopt;
  }
  contact.centroid = centroid(contact.regions);
  const LongSide side = long_side(contact.regions, contact.normal);
  contact.along = side.along;
  contact.length_mm = side.length_mm;
  contact.width_mm = side.width_mm;
  return contact;
}

template <class Piece>
std::vector<Piece> shared_pieces(const std::vector<Piece>& a, const std::vector<Piece>& b) {
  std::vector<Piece> shared;
  for (const Piece& p : a) {
    for (const Piece& q : b) {
      if (auto both = intersection(p, q)) {
        shared.push_back(std::move(*both));
      }
    }
  }
  return shared;
}

void lattice_contacts(const Pair& pair, const Solid& a, const Solid& b, const Tolerance& tolerance,
                      std::vector<Contact>& out) {
  const Nm most = to_nm(tolerance.max_gap_mm), least = -to_nm(tolerance.sliver_mm);
  const auto& theirs = b.body().lattice_surface().sheets;
  for (const LatticeSheet& mine : a.body().lattice_surface().sheets) {
    // Sheets are in order of axis and offset: only a short stretch of them is near enough.
    const Nm lowest = mine.plane.offset + (mine.plane.sign > 0 ? least : -most);
    const Nm highest = mine.plane.offset + (mine.plane.sign > 0 ? most : -least);
    auto it =
        std::lower_bound(theirs.begin(), theirs.end(), LatticePlane{mine.plane.axis, 1, lowest},
                         [](const LatticeSheet& s, const LatticePlane& p) { return s.plane < p; });
    for (; it != theirs.end() && it->plane.axis == mine.plane.axis && it->plane.offset <= highest;
         ++it) {
      if (it->plane.sign == mine.plane.sign) {
        continue;
      }
      const LatticeSheet shared{mine.plane, shared_pieces(mine.pieces, it->pieces)};
      if (shared.pieces.empty()) {
        continue;
      }
      if (auto contact = describe(pair, shared, tolerance.sliver_mm)) {
        const Nm gap = mine.plane.sign * (it->plane.offset - mine.plane.offset);
        contact->gap_mm = static_cast<double>(std::max(Nm{0}, gap)) / 1e6;
        out.push_back(std::move(*contact));
      }
    }
  }
}

// The part of a polygon in space where `plane` is between `least` and `most` nm below it.
std::vector<ExactPoint> within(std::vector<ExactPoint> points, const ExactPlane& plane,
                               const Rational& least, const Rational& most) {
  for (const int way : {1, -1}) {
    const Rational& limit = way > 0 ? least : most;
    std::vector<ExactPoint> kept;
    for (std::size_t i = 0; i < points.size(); ++i) {
      const ExactPoint &p = points[i], &q = points[(i + 1) % points.size()];
      const Rational hp = way * (plane.height(p) - limit), hq = way * (plane.height(q) - limit);
      if (hp >= 0) {
        kept.push_back(p);
      }
      if ((hp > 0 && hq < 0) || (hp < 0 && hq > 0)) {
        const Rational t = hp / (hp - hq);
        kept.push_back(p + t * (q - p));
      }
    }
    points = std::move(kept);
  }
  return points;
}

// What of `theirs` lies within tolerance of `plane`, moved onto it at right angles.
std::vector<ConvexPolygon> brought_onto(const ExactPlane& plane, const ExactSheet& theirs,
                                        const Tolerance& tolerance) {
  const double stretch = plane.stretch();
  const Rational least(-tolerance.sliver_mm * 1e6 * stretch);
  const Rational most(tolerance.max_gap_mm * 1e6 * stretch);
  const Rational squared = plane.normal[0] * plane.normal[0] + plane.normal[1] * plane.normal[1] +
                           plane.normal[2] * plane.normal[2];
  std::vector<ConvexPolygon> moved;
  for (const ConvexPolygon& piece : theirs.pieces) {
    std::vector<ExactPoint> points;
    for (const auto& p : piece.points) {
      points.push_back(lift(theirs.plane, p));
    }
    std::vector<FlatPoint<Rational>> flat;
    for (const ExactPoint& p : within(std::move(points), plane, least, most)) {
      const Rational t = plane.sign * plane.height(p) / squared;
      flat.push_back(drop(ExactPoint(p.x() - t * plane.normal[0], p.y() - t * plane.normal[1],
                                     p.z() - t * plane.normal[2]),
                          plane.axis));
    }
    if (auto polygon = convex_hull(std::move(flat))) {
      moved.push_back(std::move(*polygon));
    }
  }
  return moved;
}

// The largest distance from the regions to `other`, along their normal.
double widest_gap_mm(const Contact& contact, const ExactPlane& other) {
  const Direction n = other.unit_normal();
  double widest = 0;
  for (const Polygon& region : contact.regions) {
    for (const Point& p : region.outer) {
      widest = std::max(widest, (offset_mm(other) - dot(p, n)) / dot(n, contact.normal));
    }
  }
  return widest;
}

void exact_contacts(const Pair& pair, const Solid& a, const Solid& b, const Tolerance& tolerance,
                    std::vector<Contact>& out) {
  const double steepest = sine(tolerance.max_angle_deg * std::numbers::pi / 180);
  // Sheets in reach of each other are nearer than this, in whatever way they are out of true.
  const double reach_mm = 2 * std::max(tolerance.max_gap_mm, tolerance.sliver_mm);
  const auto& theirs = b.body().exact_surface().sheets;
  const auto& their_shapes = b.body().rounded_sheets();
  for (std::size_t m = 0; m < a.body().exact_surface().sheets.size(); ++m) {
    const ExactSheet& mine = a.body().exact_surface().sheets[m];
    const RoundedSheet& shape = a.body().rounded_sheets()[m];
    for (std::size_t i = 0; i < theirs.size(); ++i) {
      if (dot(shape.normal, their_shapes[i].normal) > 0 ||
          length(cross(shape.normal, their_shapes[i].normal)) > steepest ||
          !near(shape.box, their_shapes[i].box, reach_mm)) {
        continue;
      }
      const bool coincide = same_plane(mine.plane, theirs[i].plane);
      const ExactSheet shared{
          mine.plane,
          shared_pieces(mine.pieces, coincide ? theirs[i].pieces
                                              : brought_onto(mine.plane, theirs[i], tolerance))};
      if (shared.pieces.empty()) {
        continue;
      }
      if (auto contact = describe(pair, shared, tolerance.sliver_mm)) {
        contact->gap_mm = coincide ? 0 : widest_gap_mm(*contact, theirs[i].plane);
        out.push_back(std::move(*contact));
      }
    }
  }
}

}  // namespace

std::vector<Contact> find_contacts(std::span<const Solid> solids, const Tolerance& tolerance) {
  std::vector<Contact> contacts;
  for (const Pair& pair : near_pairs(solids, tolerance.max_gap_mm)) {
    const Solid &a = solids[pair.a], &b = solids[pair.b];
    if (a.body().cells.on_lattice() && b.body().cells.on_lattice()) {
      lattice_contacts(pair, a, b, tolerance, contacts);
    } else {
      exact_contacts(pair, a, b, tolerance, contacts);
    }
  }
  std::stable_sort(contacts.begin(), contacts.end(), [](const Contact& p, const Contact& q) {
    return std::tie(p.a, p.b, q.area_mm2, p.normal.x, p.normal.y, p.normal.z) <
           std::tie(q.a, q.b, p.area_mm2, q.normal.x, q.normal.y, q.normal.z);
  });
  return contacts;
}

}  // namespace geometry
