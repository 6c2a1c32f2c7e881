#include "geometry/mesh/mesh_cells.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>
#include <utility>

#include "geometry/mesh/mesh_winding.h"
#include "geometry/separation.h"

namespace geometry {
namespace {

// A convex part of space: a box as long as only planes across the axes have cut it.
struct Region {
  std::optional<Cuboid> box;
  Cell cell;  // where it is no box
};

struct RegionHalves {
  std::optional<Region> below, above;
};

RegionHalves split(Region region, const MeshFacets::Plane& plane) {
  if (region.box && plane.lattice) {
    const auto k = static_cast<std::size_t>(plane.lattice->axis);
    Cuboid low = *region.box, high = *region.box;
    const Nm at = std::clamp(plane.lattice->offset, low.lo[k], low.hi[k]);
    low.hi[k] = high.lo[k] = at;
    RegionHalves halves;
    if (at > low.lo[k]) {
      halves.below = Region{low, {}};
    }
    if (at < high.hi[k]) {
      halves.above = Region{high, {}};
    }
    if (plane.lattice->sign < 0) {
      std::swap(halves.below, halves.above);
    }
    return halves;
  }
  Halves cells = split(region.box ? to_cell(*region.box) : std::move(region.cell), plane.exact);
  RegionHalves halves;
  if (cells.below) {
    halves.below = Region{std::nullopt, std::move(*cells.below)};
  }
  if (cells.above) {
    halves.above = Region{std::nullopt, std::move(*cells.above)};
  }
  return halves;
}

bool clip_below(Region& region, const MeshFacets::Plane& plane) {
  if (region.box && plane.lattice) {
    RegionHalves halves = split(region, plane);
    region = halves.below ? std::move(*halves.below) : region;
    return halves.below.has_value();
  }
  if (region.box) {
    region = {std::nullopt, to_cell(*region.box)};
  }
  return clip_below(region.cell, plane.exact);
}

RoundedCell rounded(const Region& region) {
  return region.box ? round_cell(*region.box) : round_cell(region.cell);
}

// Its corners in nm, as they come.
Box corner_box(const Cell& cell) {
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  Box box{{kInfinity, kInfinity, kInfinity}, {-kInfinity, -kInfinity, -kInfinity}};
  for (const auto& [x, y, z] : cell.rounded) {
    box.lo = {std::min(box.lo.x, x), std::min(box.lo.y, y), std::min(box.lo.z, z)};
    box.hi = {std::max(box.hi.x, x), std::max(box.hi.y, y), std::max(box.hi.z, z)};
  }
  return box;
}

// Whether the cell is thinner than that across one of its faces. Asked of every node, so that the
// planes are rounded as it is quick and not to the nearest.
bool is_thinner(const Cell& cell, double mm) {
  return std::any_of(cell.faces.begin(), cell.faces.end(), [&](const Cell::Face& face) {
    const ExactPlane& plane = face.plane;
    const Direction n{CGAL::to_double(plane.normal[0]), CGAL::to_double(plane.normal[1]),
                      CGAL::to_double(plane.normal[2])};
    const double offset = CGAL::to_double(plane.offset), deepest = mm * 1e6 * length(n);
    return std::none_of(cell.rounded.begin(), cell.rounded.end(), [&](const auto& p) {
      return plane.sign * (offset - (n.x * p[0] + n.y * p[1] + n.z * p[2])) >= deepest;
    });
  });
}

bool is_thinner(const Region& region, double mm) {
  return region.box ? thickness_mm(round_cell(*region.box)) < mm : is_thinner(region.cell, mm);
}

Box bounds_mm(const Region& region) {
  const auto mm = [](const Point& nm) { return Point{nm.x / 1e6, nm.y / 1e6, nm.z / 1e6}; };
  const Box nm = region.box ? Box{} : corner_box(region.cell);
  return region.box ? round_cell(*region.box).box : Box{mm(nm.lo), mm(nm.hi)};
}

// The area of the region's face in a plane; none where it has no face there.
double face_mm2(const Region& region, const ExactPlane& plane) {
  const Cell boxed = region.box ? to_cell(*region.box) : Cell{};
  const Cell& cell = region.box ? boxed : region.cell;
  for (const Cell::Face& face : cell.faces) {
    if (!same_plane(face.plane, plane)) {
      continue;
    }
    const auto at = [&](std::size_t i) {
      const std::array<double, 3>& p = cell.rounded[static_cast<std::size_t>(face.loop[i])];
      return Point{p[0] / 1e6, p[1] / 1e6, p[2] / 1e6};
    };
    Direction twice;
    for (std::size_t i = 1; i + 1 < face.loop.size(); ++i) {
      twice = twice + cross(at(i) - at(0), at(i + 1) - at(0));
    }
    return length(twice) / 2;
  }
  return 0;
}

// A piece of the surface inside a region.
struct Patch {
  std::size_t plane;
  bool curved;
  std::vector<Point> ring;
};

double height(const MeshFacets::Plane& plane, const Point& p) {
  return dot(p, plane.normal) - plane.offset_mm;
}

enum class Side { kOn, kBelow, kAbove, kBoth };

// A patch of the plane itself is on it, however far noise or a curve takes it off: so every plane
// that bounds a node leaves less in both its halves.
Side side_of(const Patch& patch, const MeshFacets::Plane& plane, bool is_own) {
  if (is_own) {
    return Side::kOn;
  }
  const double slack = patch.curved ? plane.slack_mm : kFlatMm;
  bool below = false, above = false;
  for (const Point& p : patch.ring) {
    const double h = height(plane, p);
    below = below || h < -kFlatMm;
    above = above || h > slack;
  }
  return below ? (above ? Side::kBoth : Side::kBelow) : (above ? Side::kAbove : Side::kOn);
}

// What of the patch lies below the plane (way 1) or above it (way -1).
Patch clipped(const Patch& patch, const MeshFacets::Plane& plane, int way) {
  Patch result{patch.plane, patch.curved, {}};
  for (std::size_t i = 0; i < patch.ring.size(); ++i) {
    const Point &p = patch.ring[i], &q = patch.ring[(i + 1) % patch.ring.size()];
    const double hp = way * height(plane, p), hq = way * height(plane, q);
    if (hp <= 0) {
      result.ring.push_back(p);
    }
    if ((hp < 0 && hq > 0) || (hp > 0 && hq < 0)) {
      result.ring.push_back(p + hp / (hp - hq) * (q - p));
    }
  }
  return result;
}

// How much of a plane's patches looks along it: their area, that of those that look against it
// taken off.
double looking_along(const std::vector<Patch>& patches, const Direction& normal) {
  double sum = 0;
  for (const Patch& patch : patches) {
    for (std::size_t i = 1; i + 1 < patch.ring.size(); ++i) {
      sum +=
          dot(cross(patch.ring[i] - patch.ring[0], patch.ring[i + 1] - patch.ring[0]), normal) / 2;
    }
  }
  return sum;
}

struct Node {
  Region region;
  std::vector<Patch> patches;
  std::optional<bool> inside{};  // where it has no patches, and those beside it say so
};

class Parting {
 public:
  Parting(const MeshSurface& surface, const MeshFacets& facets)
      : surface_(surface), winding_(surface), planes_(facets.planes), curved_(facets.any_curved) {
    add_crease_planes(facets);
  }

  MeshCells run(const MeshFacets& facets) {
    Node root{around(), {}};
    for (std::size_t t = 0; t < surface_.triangles.size(); ++t) {
      Patch patch{facets.plane_of[t], planes_[facets.plane_of[t]].curved, {}};
      for (const std::size_t corner : surface_.triangles[t]) {
        patch.ring.push_back(surface_.points[corner]);
      }
      root.patches.push_back(std::move(patch));
    }
    todo_.push_back(std::move(root));
    while (!todo_.empty() && !result_.defect) {
      Node node = std::move(todo_.back());
      todo_.pop_back();
      if (curved_ && is_thinner(node.region, kThinMm)) {
        continue;
      }
      if (node.patches.empty()) {
        settle(std::move(node.region), node.inside);
      } else if (!settle_convex(node)) {
        part(node);
      }
    }
    return std::move(result_);
  }

 private:
  // A millimetre beyond the surface.
  Region around() const {
    Cuboid box{{std::numeric_limits<Nm>::max(), std::numeric_limits<Nm>::max(),
                std::numeric_limits<Nm>::max()},
               {std::numeric_limits<Nm>::min(), std::numeric_limits<Nm>::min(),
                std::numeric_limits<Nm>::min()}};
    for (const Point& p : surface_.points) {
      for (std::size_t k = 0; k < 3; ++k) {
        box.lo[k] = std::min(box.lo[k], to_nm(p[k] - 1));
        box.hi[k] = std::max(box.hi[k], to_nm(p[k] + 1));
      }
    }
    return {box, {}};
  }

  // Planes across an axis through a hollow crease part a turned or stepped body into plain slices,
  // where its facets' own planes would cut each other to pieces.
  void add_crease_planes(const MeshFacets& facets) {
    std::vector<std::pair<std::size_t, Nm>> creases;
    for (const MeshEdge& e : inner_edges(surface_)) {
      const MeshFacets::Plane& plane = planes_[facets.plane_of[e.triangle]];
      const Corners3& other = surface_.triangles[e.other];
      const bool hollow = std::any_of(other.begin(), other.end(), [&](std::size_t corner) {
        return height(plane, surface_.points[corner]) > kFlatMm;
      });
      for (std::size_t k = 0; hollow && k < 3; ++k) {
        const double at = surface_.points[e.from][k];
        if (std::abs(at - surface_.points[e.to][k]) <= kFlatMm) {
          creases.emplace_back(k, to_nm(at));
        }
      }
    }
    std::sort(creases.begin(), creases.end());
    creases.erase(std::unique(creases.begin(), creases.end()), creases.end());
    first_crease_ = planes_.size();
    for (const auto& [axis, at] : creases) {
      planes_.push_back(lattice_facet({static_cast<int>(axis), 1, at}));
    }
  }

  void refuse(std::string what, const Point& at, std::string remedy = {}) {
    result_.defect = MeshDefect{surface_.name, std::move(what), at, 0, std::move(remedy)};
  }

  // Keeps the region where it is inside; nothing of the surface is left in it. True where it was.
  bool settle(Region region, std::optional<bool> inside) {
    if (inside && curved_) {
      if (*inside) {
        keep(std::move(region));
      }
      return *inside;
    }
    const RoundedCell shape = rounded(region);
    const double winding = winding_.number_at(shape.centroid);
    // Between a half and one and a half the middle is inside, but so near the surface may be a
    // sliver that its flatness tolerance left over: that decides nothing.
    const double wrong = winding > 0.5 ? winding - 1 : -winding;
    if (wrong > 0.5 && thickness_mm(shape) > kFlatMm) {
      refuse("crosses itself", shape.centroid, "unite its pieces into one solid");
      return false;
    }
    if (winding < 0.5) {
      return false;
    }
    keep(std::move(region));
    return true;
  }

  void keep(Region region) {
    constexpr std::size_t kMostCells = 5000;
    if (result_.cells.size() == kMostCells) {
      refuse("has more than " + std::to_string(kMostCells) + " convex pieces",
             rounded(region).centroid, "draw its curves with fewer flats");
    } else if (region.box) {
      result_.cells.boxes.push_back(*region.box);
    } else {
      result_.cells.cells.push_back(std::move(region.cell));
    }
  }

  std::vector<std::size_t> planes_in(const Node& node) const {
    std::vector<std::size_t> planes;
    for (const Patch& patch : node.patches) {
      planes.push_back(patch.plane);
    }
    std::sort(planes.begin(), planes.end());
    planes.erase(std::unique(planes.begin(), planes.end()), planes.end());
    return planes;
  }

  // Whether all patches but the plane's own lie below it. A curve's neighbour may reach a little
  // above it, but not on the whole: that is a hollow.
  bool all_below(const Node& node, std::size_t plane) const {
    std::vector<double> heights(planes_.size(), 0);  // summed by plane
    for (const Patch& patch : node.patches) {
      const Side side = side_of(patch, planes_[plane], patch.plane == plane);
      if (side == Side::kAbove || side == Side::kBoth) {
        return false;
      }
      for (const Point& p : patch.ring) {
        if (patch.curved && patch.plane != plane) {
          heights[patch.plane] += height(planes_[plane], p) - kFlatMm;
        }
      }
    }
    return std::all_of(heights.begin(), heights.end(), [](double h) { return h <= 0; });
  }

  // Whether most of what a curved body's cell has in a plane is surface, and not just slivers that
  // are left between a curve and the plane that stands for it.
  bool covers(const std::vector<Patch>& patches, std::size_t plane, const Region& cell) const {
    std::vector<Patch> own;
    std::copy_if(patches.begin(), patches.end(), std::back_inserter(own),
                 [&](const Patch& patch) { return patch.plane == plane; });
    return !curved_ ||
           2 * looking_along(own, planes_[plane].normal) >= face_mm2(cell, planes_[plane].exact);
  }

  // Where every patch looks away from all others, what is below all of them is one cell.
  bool settle_convex(const Node& node) {
    const std::vector<std::size_t> planes = planes_in(node);
    if (std::binary_search(planes.begin(), planes.end(), last_faced_) &&
        !all_below(node, last_faced_)) {
      return false;
    }
    const auto faced = std::find_if(planes.begin(), planes.end(),
                                    [&](std::size_t plane) { return !all_below(node, plane); });
    if (faced != planes.end()) {
      last_faced_ = *faced;
      return false;
    }
    Region inside = node.region;
    for (const std::size_t plane : planes) {
      if (!clip_below(inside, planes_[plane])) {
        return false;
      }
    }
    const bool covered = std::all_of(planes.begin(), planes.end(), [&](std::size_t plane) {
      return covers(node.patches, plane, inside);
    });
    return covered && (settle(std::move(inside), true) || result_.defect.has_value());
  }

  // The plane that cuts the fewest patches and leaves as many on one side as on the other.
  std::optional<std::size_t> best_plane(const Node& node) const {
    constexpr std::size_t kTried = 24;  // of each sort; more cost time and save few cells
    std::vector<std::size_t> own = planes_in(node), creases;
    const Box box = bounds_mm(node.region);
    for (std::size_t i = first_crease_; i < planes_.size(); ++i) {
      const auto k = static_cast<std::size_t>(planes_[i].lattice->axis);
      if (planes_[i].offset_mm > box.lo[k] + kFlatMm &&
          planes_[i].offset_mm < box.hi[k] - kFlatMm) {
        creases.push_back(i);
      }
    }
    std::optional<std::size_t> best;
    std::ptrdiff_t least = std::numeric_limits<std::ptrdiff_t>::max();
    for (const std::vector<std::size_t>* sort : {&creases, &own}) {
      const std::size_t stride = std::max<std::size_t>(1, sort->size() / kTried);
      for (std::size_t i = 0; i < sort->size(); i += stride) {
        std::ptrdiff_t count[4] = {0, 0, 0, 0};
        for (const Patch& patch : node.patches) {
          const std::size_t plane = (*sort)[i];
          ++count[static_cast<std::size_t>(side_of(patch, planes_[plane], patch.plane == plane))];
        }
        const auto [on, below, above, both] = std::tie(count[0], count[1], count[2], count[3]);
        const bool parts = on > 0 || (below + both > 0 && above + both > 0);
        const std::ptrdiff_t cost = 4 * both + std::abs(below - above) - 2 * on;
        if (parts && cost < least) {
          least = cost;
          best = (*sort)[i];
        }
      }
    }
    return best;
  }

  void part(Node& node) {
    const std::optional<std::size_t> chosen = best_plane(node);
    if (!chosen) {
      return refuse("has faces that no plane parts", rounded(node.region).centroid);
    }
    const MeshFacets::Plane& plane = planes_[*chosen];
    std::vector<Patch> below, above, on;
    for (Patch& patch : node.patches) {
      switch (side_of(patch, plane, patch.plane == *chosen)) {
        case Side::kOn:
          on.push_back(std::move(patch));
          break;
        case Side::kBelow:
          below.push_back(std::move(patch));
          break;
        case Side::kAbove:
          above.push_back(std::move(patch));
          break;
        case Side::kBoth:
          below.push_back(clipped(patch, plane, 1));
          above.push_back(clipped(patch, plane, -1));
          break;
      }
    }
    // Where surface lies between the halves, what is behind it is inside.
    RegionHalves halves = split(std::move(node.region), plane);
    const double along = looking_along(on, plane.normal);
    const bool is_clear = curved_ && halves.below && halves.above && along != 0 &&
                          2 * std::abs(along) >= face_mm2(*halves.below, plane.exact);
    const auto behind = [&](bool is_behind) {
      return is_clear ? std::optional(is_behind == (along > 0)) : std::nullopt;
    };
    if (halves.above) {
      todo_.push_back({std::move(*halves.above), std::move(above), behind(false)});
    }
    if (halves.below) {
      todo_.push_back({std::move(*halves.below), std::move(below), behind(true)});
    }
  }

  static constexpr double kThinMm = 0.05;  // of a curved body; thinner, and nothing is stopped

  const MeshSurface& surface_;
  const Winding winding_;
  std::vector<MeshFacets::Plane> planes_;  // of the facets, then through creases
  bool curved_;
  std::size_t first_crease_ = 0;
  std::size_t last_faced_ = 0;  // the plane that last had something above it: it may have still
  std::vector<Node> todo_;
  MeshCells result_;
};

}  // namespace

MeshCells cells_of(const MeshSurface& surface, const MeshFacets& facets) {
  return Parting(surface, facets).run(facets);
}

}  // namespace geometry
