#include "geometry/mesh/mesh_surface.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <span>
#include <tuple>
#include <unordered_map>
#include <utility>

namespace geometry {
namespace {

// Points closer than this are one: more than a single-precision number is out by at 500 mm.
constexpr double kWeldMm = 1e-4;

Direction twice_area(const Point& a, const Point& b, const Point& c) {
  return cross(b - a, c - a);
}

// Whether `p` lies in the triangle seen along n, its corners excepted.
bool covers(const Point& a, const Point& b, const Point& c, const Direction& n, const Point& p) {
  return p != a && p != b && p != c && dot(twice_area(a, b, p), n) >= 0 &&
         dot(twice_area(b, c, p), n) >= 0 && dot(twice_area(c, a, p), n) >= 0;
}

// Points placed so far, those closer than kWeldMm as one.
class PointGrid {
 public:
  // Index of the point, or of an earlier one near enough.
  std::size_t place(const Point& p) {
    const Key low = key(p, -kWeldMm), high = key(p, kWeldMm);
    for (std::int64_t x = low[0]; x <= high[0]; ++x) {
      for (std::int64_t y = low[1]; y <= high[1]; ++y) {
        for (std::int64_t z = low[2]; z <= high[2]; ++z) {
          const auto first = fields_.find({x, y, z});
          for (std::size_t i = first == fields_.end() ? kNone : first->second; i != kNone;
               i = next_[i]) {
            if (length(points_[i] - p) <= kWeldMm) {
              return i;
            }
          }
        }
      }
    }
    const auto field = fields_.try_emplace(key(p, 0), kNone).first;
    next_.push_back(field->second);
    field->second = points_.size();
    points_.push_back(p);
    return points_.size() - 1;
  }
  const std::vector<Point>& points() const { return points_; }

 private:
  using Key = std::array<std::int64_t, 3>;
  // Large beside kWeldMm, so that most points have but one field to look into; small enough that
  // even there not a hundred points find room.
  static Key key(const Point& p, double off) {
    constexpr double kFieldMm = 4 * kWeldMm;
    const auto field = [&](double c) {
      return static_cast<std::int64_t>(std::floor((c + off) / kFieldMm));
    };
    return {field(p.x), field(p.y), field(p.z)};
  }
  struct Hash {
    std::size_t operator()(const Key& k) const {
      // splitmix64 after each: neighbours, of either sign, must not fall together.
      std::uint64_t h = 0;
      for (const std::int64_t c : k) {
        h += static_cast<std::uint64_t>(c) + 0x9E3779B97F4A7C15u;
        h = (h ^ (h >> 30)) * 0xBF58476D1CE4E5B9u;
        h = (h ^ (h >> 27)) * 0x94D049BB133111EBu;
        h ^= h >> 31;
      }
      return h;
    }
  };

  std::vector<Point> points_;
  static constexpr std::size_t kNone = static_cast<std::size_t>(-1);
  std::vector<std::size_t> next_;                      // of each point, the one before in its field
  std::unordered_map<Key, std::size_t, Hash> fields_;  // the last point in each
};

using Edge = OpenEdge;

std::vector<Edge> edges_of(const MeshSurface& surface) {
  std::vector<Edge> edges;
  edges.reserve(3 * surface.triangles.size());
  for (std::size_t t = 0; t < surface.triangles.size(); ++t) {
    for (std::size_t i = 0; i < 3; ++i) {
      edges.push_back({surface.triangles[t][i], surface.triangles[t][(i + 1) % 3], t});
    }
  }
  return edges;
}

// Edges with the same two ends, whichever way they run, next to each other.
void sort_by_ends(std::vector<Edge>& edges) {
  std::sort(edges.begin(), edges.end(), [](const Edge& a, const Edge& b) {
    const auto [a0, a1] = std::minmax(a.from, a.to);
    const auto [b0, b1] = std::minmax(b.from, b.to);
    return std::tie(a0, a1, a.triangle) < std::tie(b0, b1, b.triangle);
  });
}

template <class Visit>
void each_edge(const MeshSurface& surface, Visit visit) {
  std::vector<Edge> edges = edges_of(surface);
  sort_by_ends(edges);
  for (std::size_t i = 0; i < edges.size();) {
    std::size_t j = i;
    while (j < edges.size() &&
           std::minmax(edges[i].from, edges[i].to) == std::minmax(edges[j].from, edges[j].to)) {
      ++j;
    }
    visit(std::span(edges).subspan(i, j - i));
    i = j;
  }
}

// Whether as many of the edges between two points run one way as the other.
bool is_matched(std::span<const Edge> same) {
  return 2 * std::count_if(same.begin(), same.end(),
                           [&](const Edge& e) { return e.from == same.front().from; }) ==
         static_cast<std::ptrdiff_t>(same.size());
}

Point middle(const MeshSurface& surface, const Edge& e) {
  const Point &a = surface.points[e.from], &b = surface.points[e.to];
  return a + 0.5 * (b - a);
}

std::size_t leader(std::vector<std::size_t>& leaders, std::size_t i) {
  while (leaders[i] != i) {
    i = leaders[i] = leaders[leaders[i]];
  }
  return i;
}

}  // namespace

void add_polygon(const std::vector<std::size_t>& corners, MeshSurface& surface) {
  const auto at = [&](std::size_t i) -> const Point& { return surface.points[i]; };
  Direction n;
  for (std::size_t i = 1; i + 1 < corners.size(); ++i) {
    n = n + twice_area(at(corners[0]), at(corners[i]), at(corners[i + 1]));
  }
  // Ears off one by one; what no longer has an ear (a line, or noise) is left as a fan.
  std::vector<std::size_t> ring = corners;
  while (ring.size() > 3) {
    std::size_t ear = ring.size();
    for (std::size_t i = 0; i < ring.size() && ear == ring.size(); ++i) {
      const Point& a = at(ring[(i + ring.size() - 1) % ring.size()]);
      const Point &b = at(ring[i]), &c = at(ring[(i + 1) % ring.size()]);
      const bool bare = std::none_of(ring.begin(), ring.end(),
                                     [&](std::size_t p) { return covers(a, b, c, n, at(p)); });
      if (dot(twice_area(a, b, c), n) > 0 && bare) {
        ear = i;
      }
    }
    if (ear == ring.size()) {
      ear = 1;
    }
    surface.triangles.push_back(
        {ring[(ear + ring.size() - 1) % ring.size()], ring[ear], ring[(ear + 1) % ring.size()]});
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(ear));
  }
  surface.triangles.push_back({ring[0], ring[1], ring[2]});
}

MeshSurface compact(std::string name, const std::vector<Point>& points,
                    const std::vector<Corners3>& triangles) {
  std::vector<std::size_t> used;
  for (const Corners3& t : triangles) {
    used.insert(used.end(), t.begin(), t.end());
  }
  std::sort(used.begin(), used.end());
  used.erase(std::unique(used.begin(), used.end()), used.end());
  MeshSurface result{std::move(name), {}, triangles};
  for (const std::size_t i : used) {
    result.points.push_back(points[i]);
  }
  for (Corners3& t : result.triangles) {
    for (std::size_t& corner : t) {
      corner = static_cast<std::size_t>(std::lower_bound(used.begin(), used.end(), corner) -
                                        used.begin());
    }
  }
  return result;
}

MeshSurface welded(const MeshSurface& surface) {
  PointGrid grid;
  std::vector<std::size_t> renamed;
  for (const Point& p : surface.points) {
    renamed.push_back(grid.place(p));
  }
  MeshSurface result{surface.name, grid.points(), {}};
  for (const Corners3& t : surface.triangles) {
    const Corners3 n = {renamed[t[0]], renamed[t[1]], renamed[t[2]]};
    if (n[0] != n[1] && n[1] != n[2] && n[2] != n[0]) {
      result.triangles.push_back(n);
    }
  }
  return result;
}

std::vector<MeshEdge> inner_edges(const MeshSurface& surface) {
  std::vector<MeshEdge> result;
  each_edge(surface, [&](std::span<const Edge> same) {
    for (std::size_t i = 1; i < same.size(); ++i) {
      result.push_back({same[0].from, same[0].to, same[0].triangle, same[i].triangle});
    }
  });
  return result;
}

std::vector<OpenEdge> open_edges(const MeshSurface& surface) {
  std::vector<OpenEdge> open;
  each_edge(surface, [&](std::span<const Edge> same) {
    if (!is_matched(same)) {
      open.insert(open.end(), same.begin(), same.end());
    }
  });
  return open;
}

std::optional<MeshDefect> defect_of(const MeshSurface& surface) {
  std::optional<MeshDefect> defect;
  each_edge(surface, [&](std::span<const Edge> same) {
    if (!is_matched(same) && !defect) {
      const bool turned = same.size() > 1 && same.size() % 2 == 0;
      defect = turned ? MeshDefect{surface.name,
                                   "has faces that look opposite ways on the two sides of an edge",
                                   middle(surface, same.front()), 0, "turn one of them over"}
                      : MeshDefect{surface.name, "has an open edge", middle(surface, same.front()),
                                   0, "close its surface: a face is missing there"};
    }
  });
  if (defect) {
    return defect;
  }
  double six_volumes = 0;
  for (const Corners3& t : surface.triangles) {
    const Point& o = surface.points.front();
    six_volumes +=
        dot(surface.points[t[0]] - o, cross(surface.points[t[1]] - o, surface.points[t[2]] - o));
  }
  if (six_volumes < 0) {
    return MeshDefect{surface.name, "is inside out: its faces look inward", std::nullopt, 0,
                      "turn all of its faces over"};
  }
  if (six_volumes == 0) {
    return MeshDefect{surface.name, "has no volume", std::nullopt, 0,
                      "draw it as a solid, or leave it out"};
  }
  return std::nullopt;
}

Components components_of(const MeshSurface& surface) {
  Components result;
  std::vector<std::size_t> leaders(surface.triangles.size());
  std::iota(leaders.begin(), leaders.end(), 0u);
  each_edge(surface, [&](std::span<const Edge> same) {
    if (same.size() > 2 && !result.defect) {
      result.defect =
          MeshDefect{surface.name,
                     "has parts that share an edge, and its format can't tell them "
                     "apart",
                     middle(surface, same.front()), 0, "export OBJ with one object a part"};
    }
    for (const Edge& e : same) {
      const std::size_t a = leader(leaders, e.triangle), b = leader(leaders, same[0].triangle);
      leaders[std::max(a, b)] = std::min(a, b);
    }
  });
  std::vector<std::size_t> index(surface.triangles.size(), surface.triangles.size());
  std::vector<std::vector<Corners3>> groups;
  for (std::size_t t = 0; t < surface.triangles.size(); ++t) {
    std::size_t& i = index[leader(leaders, t)];
    if (i == surface.triangles.size()) {
      i = groups.size();
      groups.emplace_back();
    }
    groups[i].push_back(surface.triangles[t]);
  }
  for (const std::vector<Corners3>& triangles : groups) {
    result.surfaces.push_back(compact(surface.name, surface.points, triangles));
  }
  return result;
}

}  // namespace geometry
