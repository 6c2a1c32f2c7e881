#include "geometry/mesh/mesh_facets.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

#include "geometry/elementary.h"

namespace geometry {
namespace {

Direction twice_area(const MeshSurface& surface, const Corners3& t) {
  return cross(surface.points[t[1]] - surface.points[t[0]],
               surface.points[t[2]] - surface.points[t[0]]);
}

// Triangles next to each triangle.
std::vector<std::vector<std::size_t>> neighbours(const MeshSurface& surface) {
  std::vector<std::vector<std::size_t>> near(surface.triangles.size());
  for (const MeshEdge& e : inner_edges(surface)) {
    near[e.triangle].push_back(e.other);
    near[e.other].push_back(e.triangle);
  }
  return near;
}

struct Fit {
  Direction normal;  // area weighted, not of unit length
  Point middle;
};

Fit fit(const MeshSurface& surface, const std::vector<std::size_t>& region) {
  const Point origin = surface.points[surface.triangles[region.front()][0]];
  Fit f;
  double weight = 0;
  Direction moment;
  for (const std::size_t t : region) {
    const Direction twice = twice_area(surface, surface.triangles[t]);
    f.normal = f.normal + twice;
    weight += length(twice);
    for (const std::size_t corner : surface.triangles[t]) {
      moment = moment + length(twice) / 3 * (surface.points[corner] - origin);
    }
  }
  f.middle = origin + (1 / weight) * moment;
  return f;
}

std::size_t main_axis(const Direction& n) {
  std::size_t axis = 0;
  for (const std::size_t k : {std::size_t{1}, std::size_t{2}}) {
    if (std::abs(n[k]) > std::abs(n[axis])) {
      axis = k;
    }
  }
  return axis;
}

bool lies_across(const MeshSurface& surface, const std::vector<std::size_t>& region,
                 std::size_t axis, double at) {
  return std::all_of(region.begin(), region.end(), [&](std::size_t t) {
    return std::all_of(
        surface.triangles[t].begin(), surface.triangles[t].end(),
        [&](std::size_t corner) { return std::abs(surface.points[corner][axis] - at) <= kFlatMm; });
  });
}

MeshFacets::Plane plane_of(const MeshSurface& surface, const std::vector<std::size_t>& region) {
  const Fit f = fit(surface, region);
  const std::size_t k = main_axis(f.normal);
  const int sign = f.normal[k] > 0 ? 1 : -1;
  if (lies_across(surface, region, k, f.middle[k])) {
    return lattice_facet({static_cast<int>(k), sign, to_nm(f.middle[k])});
  }
  // Rounded to 2^-40, which turns 400 mm by less than a nanometre: directions that a drawing means
  // to be whole, such as 45 degrees, are whole again, and coordinates stay short.
  constexpr double kSteps = 1099511627776.0;
  std::array<Rational, 3> outward;
  double offset_nm = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double ratio = std::round(f.normal[i] / std::abs(f.normal[k]) * kSteps) / kSteps;
    outward[i] = Rational(ratio);
    offset_nm += ratio * f.middle[i] * 1e6;
  }
  MeshFacets::Plane plane{
      make_plane(outward, Rational(std::round(offset_nm * 1024) / 1024)), std::nullopt, {}, 0};
  plane.normal = plane.exact.unit_normal();
  plane.offset_mm = offset_mm(plane.exact);
  return plane;
}

}  // namespace

MeshFacets::Plane lattice_facet(const LatticePlane& plane) {
  return {lattice_plane(plane.axis, plane.sign, plane.offset), plane, unit_normal(plane),
          offset_mm(plane)};
}

namespace {

constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();

using Region = std::vector<std::size_t>;  // triangles, joined by edges

// What of a surface may be one region: how far its corners may lie off the plane of its first
// triangle, and how far its triangles may turn from it.
struct Band {
  double mm;
  double sine;
  double noise_mm;  // what turns no more than this much of itself out of the plane is noise
};

class Growing {
 public:
  explicit Growing(const MeshSurface& surface)
      : surface_(surface), near_(neighbours(surface)), region_of_(surface.triangles.size(), kNone) {
    for (const Corners3& t : surface.triangles) {
      twice_areas_.push_back(twice_area(surface, t));
    }
  }

  // Parts what of the triangles belongs nowhere yet into regions, from the largest triangle down.
  void grow(std::vector<std::size_t> seeds, const Band& band, std::vector<Region>& regions) {
    std::stable_sort(seeds.begin(), seeds.end(), [&](std::size_t a, std::size_t b) {
      return length(twice_areas_[a]) > length(twice_areas_[b]);
    });
    for (const std::size_t seed : seeds) {
      if (region_of_[seed] == kNone && length(twice_areas_[seed]) > 0) {
        regions.push_back(around(seed, regions.size(), band));
      }
    }
  }
  void release(const Region& region) {
    for (const std::size_t t : region) {
      region_of_[t] = kNone;
    }
  }

  const std::vector<std::size_t>& region_of() const { return region_of_; }
  const std::vector<std::size_t>& near(std::size_t triangle) const { return near_[triangle]; }
  Direction twice_area_of(const Region& region) const {
    Direction sum;
    for (const std::size_t t : region) {
      sum = sum + twice_areas_[t];
    }
    return sum;
  }

 private:
  Region around(std::size_t seed, std::size_t name, const Band& band) {
    const Direction normal = unit(twice_areas_[seed]);
    const Point on = surface_.points[surface_.triangles[seed][0]];
    Region region = {seed};
    region_of_[seed] = name;
    for (std::size_t i = 0; i < region.size(); ++i) {
      for (const std::size_t t : near_[region[i]]) {
        if (region_of_[t] == kNone && lies_in(t, on, normal, band)) {
          region_of_[t] = name;
          region.push_back(t);
        }
      }
    }
    return region;
  }

  bool lies_in(std::size_t t, const Point& on, const Direction& normal, const Band& band) const {
    double lowest = band.mm, highest = -band.mm;
    for (const std::size_t c : surface_.triangles[t]) {
      const double h = dot(surface_.points[c] - on, normal);
      lowest = std::min(lowest, h);
      highest = std::max(highest, h);
    }
    if (lowest < -band.mm || highest > band.mm) {
      return false;
    }
    // The thinnest triangles look anywhere; else what looks away is the back of a thin part.
    const double size = length(twice_areas_[t]);
    const bool faces_away = dot(twice_areas_[t], normal) < -0.1 * size;
    const bool turned = length(cross(twice_areas_[t], normal)) > band.sine * size;
    return !faces_away && (!turned || highest - lowest <= band.noise_mm);
  }

  const MeshSurface& surface_;
  std::vector<std::vector<std::size_t>> near_;
  std::vector<Direction> twice_areas_;
  std::vector<std::size_t> region_of_;
};

// Narrower than flats that anyone planes or glues one by one.
bool is_narrow(const MeshSurface& surface, const Region& region, const Direction& twice_area) {
  constexpr double kNarrowMm = 3;
  const Point first = surface.points[surface.triangles[region.front()][0]];
  double longest = 0;
  for (const std::size_t t : region) {
    for (const std::size_t c : surface.triangles[t]) {
      longest = std::max(longest, length(surface.points[c] - first));
    }
  }
  return length(twice_area) / 2 < kNarrowMm * longest;
}

// Which regions are flats of a curved surface: narrow, beside narrow ones turned a few degrees.
std::vector<bool> curved_of(const MeshSurface& surface, const Growing& growing,
                            const std::vector<Region>& regions) {
  const double least_cosine = cosine(6 * std::numbers::pi / 180);
  std::vector<Direction> normal;
  std::vector<bool> narrow, curved(regions.size(), false);
  for (const Region& region : regions) {
    const Direction twice = growing.twice_area_of(region);
    narrow.push_back(length(twice) > 0 && is_narrow(surface, region, twice));
    normal.push_back(length(twice) > 0 ? unit(twice) : twice);
  }
  for (std::size_t r = 0; r < regions.size(); ++r) {
    for (std::size_t i = 0; narrow[r] && !curved[r] && i < regions[r].size(); ++i) {
      for (const std::size_t t : growing.near(regions[r][i])) {
        const std::size_t other = growing.region_of()[t];
        curved[r] = curved[r] || (other != kNone && other != r && narrow[other] &&
                                  dot(normal[r], normal[other]) > least_cosine);
      }
    }
  }
  return curved;
}

// The plane at the level of an earlier one where noise alone tells them apart: faces that a notch
// parts lie in one plane again.
MeshFacets::Plane levelled(const MeshFacets::Plane& plane,
                           const std::vector<MeshFacets::Plane>& earlier) {
  constexpr Nm kNoise = 200;
  const auto same = std::find_if(earlier.begin(), earlier.end(), [&](const MeshFacets::Plane& e) {
    return plane.lattice && e.lattice && plane.lattice->axis == e.lattice->axis &&
           std::abs(plane.lattice->offset - e.lattice->offset) <= kNoise;
  });
  return same == earlier.end()
             ? plane
             : lattice_facet({plane.lattice->axis, plane.lattice->sign, same->lattice->offset});
}

// Moved below all of the region, to where the wood is: what it bounds is in the body.
MeshFacets::Plane plane_below(const MeshSurface& surface, const Region& region,
                              const Direction& normal) {
  // Short numbers keep the exact corners short; the offset makes up for the rounding.
  constexpr double kSteps = 1048576;
  const double largest = std::abs(normal[main_axis(normal)]);
  std::array<Rational, 3> outward;
  Direction rounded;
  for (std::size_t k = 0; k < 3; ++k) {
    const double ratio = std::round(normal[k] / largest * kSteps) / kSteps;
    outward[k] = Rational(ratio);
    (k == 0 ? rounded.x : k == 1 ? rounded.y : rounded.z) = ratio;
  }
  double lowest = std::numeric_limits<double>::infinity(), highest = -lowest;
  for (const std::size_t t : region) {
    for (const std::size_t c : surface.triangles[t]) {
      const double h = dot(surface.points[c], rounded);
      lowest = std::min(lowest, h);
      highest = std::max(highest, h);
    }
  }
  MeshFacets::Plane plane{
      make_plane(outward, Rational(std::floor(lowest * 1e6))), std::nullopt, {}, 0};
  plane.normal = plane.exact.unit_normal();
  plane.offset_mm = offset_mm(plane.exact);
  plane.slack_mm = std::max(kFlatMm, (highest - lowest) / length(rounded) + 1e-6);
  plane.curved = true;
  return plane;
}

}  // namespace

MeshFacets facets_of(const MeshSurface& surface) {
  // Half a degree is less than the flats of a round turn; single precision at 2 m is out by less
  // than the noise.
  constexpr Band kFlat{kFlatMm, 0.0087, 3e-4};
  constexpr Band kCurve{0.25, 0.6, 0};
  Growing growing(surface);
  std::vector<std::size_t> all(surface.triangles.size());
  std::iota(all.begin(), all.end(), 0u);
  std::vector<Region> flats, rounds;
  growing.grow(all, kFlat, flats);
  const std::vector<bool> curved = curved_of(surface, growing, flats);
  std::vector<std::size_t> on_curves;
  for (std::size_t r = 0; r < flats.size(); ++r) {
    if (curved[r]) {
      on_curves.insert(on_curves.end(), flats[r].begin(), flats[r].end());
    }
  }
  MeshFacets facets{{}, std::vector<std::size_t>(surface.triangles.size(), 0), !on_curves.empty()};
  const auto add = [&](const Region& region, const MeshFacets::Plane& plane) {
    for (const std::size_t t : region) {
      facets.plane_of[t] = facets.planes.size();
    }
    facets.planes.push_back(plane);
  };
  for (std::size_t r = 0; r < flats.size() && facets.planes.size() <= kMostPlanes; ++r) {
    if (!curved[r]) {
      add(flats[r], levelled(plane_of(surface, flats[r]), facets.planes));
    }
  }
  growing.release(on_curves);
  growing.grow(on_curves, kCurve, rounds);
  for (std::size_t r = 0; r < rounds.size() && facets.planes.size() <= kMostPlanes; ++r) {
    add(rounds[r], plane_below(surface, rounds[r], growing.twice_area_of(rounds[r])));
  }
  return facets;
}

}  // namespace geometry
