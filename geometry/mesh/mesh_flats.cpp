#include "geometry/mesh/mesh_flats.h"

#include <algorithm>
#include <map>
#include <utility>

#include <CGAL/Constrained_Delaunay_triangulation_2.h>
#include <CGAL/Triangulation_face_base_with_info_2.h>

namespace geometry {
namespace {

// Over the exact kernel as it is: filtered ones throw or want rounding modes, which not every
// machine has. Outlines that noise makes cross themselves are cut where they cross.
using Vertex = CGAL::Triangulation_vertex_base_2<Kernel>;
using Face =
    CGAL::Triangulation_face_base_with_info_2<int, Kernel,
                                              CGAL::Constrained_triangulation_face_base_2<Kernel>>;
using Triangulation = CGAL::Constrained_Delaunay_triangulation_2<
    Kernel, CGAL::Triangulation_data_structure_2<Vertex, Face>, CGAL::Exact_intersections_tag>;

using Edge = std::pair<std::size_t, std::size_t>;  // the face lies to its left seen from outside

// Of each plane the edges that no two of its triangles share.
std::vector<std::vector<Edge>> outlines(const MeshSurface& surface, const MeshFacets& facets) {
  std::vector<std::map<Edge, int>> counts(facets.planes.size());
  for (std::size_t t = 0; t < surface.triangles.size(); ++t) {
    for (std::size_t i = 0; i < 3; ++i) {
      const std::size_t from = surface.triangles[t][i], to = surface.triangles[t][(i + 1) % 3];
      counts[facets.plane_of[t]][std::minmax(from, to)] += from < to ? 1 : -1;
    }
  }
  std::vector<std::vector<Edge>> result(counts.size());
  for (std::size_t plane = 0; plane < counts.size(); ++plane) {
    for (const auto& [edge, count] : counts[plane]) {
      if (count != 0) {
        result[plane].push_back(count > 0 ? edge : Edge{edge.second, edge.first});
      }
    }
  }
  return result;
}

class Outlined {
 public:
  Outlined(const MeshSurface& surface, const std::vector<Edge>& edges, const ExactPlane& plane)
      : sign_(plane.sign) {
    std::map<std::size_t, Triangulation::Vertex_handle> placed;
    const auto u = static_cast<std::size_t>(u_axis(plane.axis)),
               v = static_cast<std::size_t>(v_axis(plane.axis));
    const auto at = [&](std::size_t i) {
      const Point& p = surface.points[i];
      return FlatPoint<Nm>{to_nm(p[u]), to_nm(p[v])};
    };
    for (const auto& [from, to] : edges) {
      rim_.push_back({at(from), at(to)});
      for (const std::size_t i : {from, to}) {
        if (const auto [it, fresh] = placed.try_emplace(i); fresh) {
          const FlatPoint<Nm> p = at(i);
          it->second = all_.insert(Kernel::Point_2(Rational(p.u), Rational(p.v)));
        }
      }
    }
    for (const auto& [from, to] : edges) {
      if (placed[from] != placed[to]) {
        all_.insert_constraint(placed[from], placed[to]);
      }
    }
  }

  // The triangles that the outline winds round.
  std::vector<ConvexPolygon> pieces() {
    for (const auto face : all_.all_face_handles()) {
      face->info() = 0;
    }
    std::vector<ConvexPolygon> kept;
    for (const auto face : all_.finite_face_handles()) {
      if (face->info() == 0) {
        const std::vector<Triangulation::Face_handle> part = joined(face);
        if (is_inside(part)) {
          for (const auto& f : part) {
            kept.push_back(polygon(f));
          }
        }
      }
    }
    return kept;
  }

 private:
  // The faces that no outline parts from one.
  std::vector<Triangulation::Face_handle> joined(Triangulation::Face_handle first) {
    std::vector<Triangulation::Face_handle> part = {first};
    first->info() = 1;
    for (std::size_t i = 0; i < part.size(); ++i) {
      for (int k = 0; k < 3; ++k) {
        const auto next = part[i]->neighbor(k);
        if (!part[i]->is_constrained(k) && !all_.is_infinite(next) && next->info() == 0) {
          next->info() = 1;
          part.push_back(next);
        }
      }
    }
    return part;
  }

  static ConvexPolygon polygon(Triangulation::Face_handle face) {
    std::vector<FlatPoint<Rational>> points;
    for (int k = 0; k < 3; ++k) {
      points.push_back({face->vertex(k)->point().x(), face->vertex(k)->point().y()});
    }
    return make_polygon(std::move(points));
  }

  // Seen from the middle of the largest of its faces. What is too thin for that is no face.
  bool is_inside(const std::vector<Triangulation::Face_handle>& part) const {
    double largest = 0;
    FlatPoint<double> middle{};
    for (const auto& face : part) {
      FlatPoint<double> p[3];
      for (int k = 0; k < 3; ++k) {
        p[k] = {to_double(face->vertex(k)->point().x()), to_double(face->vertex(k)->point().y())};
      }
      const double area = outline_detail::cross(p[0], p[1], p[2]);
      if (area > largest) {
        largest = area;
        middle = {(p[0].u + p[1].u + p[2].u) / 3, (p[0].v + p[1].v + p[2].v) / 3};
      }
    }
    return largest > 0 && winding(middle) * sign_ > 0;
  }

  int winding(const FlatPoint<double>& p) const {
    int count = 0;
    for (const FlatEdge<Nm>& e : rim_) {
      const FlatPoint<double> a{static_cast<double>(e.from.u), static_cast<double>(e.from.v)};
      const FlatPoint<double> b{static_cast<double>(e.to.u), static_cast<double>(e.to.v)};
      if ((a.v > p.v) != (b.v > p.v) && (outline_detail::cross(a, b, p) > 0) == (b.v > a.v)) {
        count += b.v > a.v ? 1 : -1;
      }
    }
    return count;
  }

  int sign_;  // a face that looks down its plane's axis has its outline clockwise
  Triangulation all_;
  std::vector<FlatEdge<Nm>> rim_;
};

// Of the tetrahedra from one corner to each triangle.
void weigh(const MeshSurface& surface, Drawn& drawn) {
  const Point o = surface.points.front();
  Direction moment;
  for (const Corners3& t : surface.triangles) {
    const Direction a = surface.points[t[0]] - o, b = surface.points[t[1]] - o,
                    c = surface.points[t[2]] - o;
    const double volume = dot(a, cross(b, c)) / 6;
    drawn.volume_mm3 += volume;
    moment = moment + volume / 4 * (a + b + c);
  }
  drawn.centroid = o + (1 / drawn.volume_mm3) * moment;
}

double volume_mm3(const MeshSurface& surface) {
  Drawn drawn;
  weigh(surface, drawn);
  return drawn.volume_mm3;
}

}  // namespace

Drawn drawn_of(const MeshSurface& surface, const MeshFacets& facets) {
  Drawn drawn;
  weigh(surface, drawn);
  const std::vector<std::vector<Edge>> edges = outlines(surface, facets);
  std::vector<ExactSheet> sheets;
  for (std::size_t i = 0; i < facets.planes.size(); ++i) {
    if (!facets.planes[i].curved) {
      const ExactPlane& plane = facets.planes[i].exact;
      sheets.push_back({plane, Outlined(surface, edges[i], plane).pieces()});
    }
  }
  std::stable_sort(sheets.begin(), sheets.end(),
                   [](const ExactSheet& a, const ExactSheet& b) { return a.plane < b.plane; });
  for (ExactSheet& sheet : sheets) {
    std::vector<ExactSheet>& kept = drawn.flats.sheets;
    if (!kept.empty() && !(kept.back().plane < sheet.plane)) {
      std::move(sheet.pieces.begin(), sheet.pieces.end(), std::back_inserter(kept.back().pieces));
    } else if (!sheet.pieces.empty()) {
      kept.push_back(std::move(sheet));
    }
  }
  // A shell that looks inward is a hollow of the piece around it.
  for (const MeshSurface& shell : components_of(surface).surfaces) {
    drawn.flats.piece_count += volume_mm3(shell) > 0 ? 1 : 0;
  }
  return drawn;
}

double curved_mm2(const MeshSurface& surface, const MeshFacets& facets) {
  double sum = 0;
  for (std::size_t t = 0; t < surface.triangles.size(); ++t) {
    if (facets.planes[facets.plane_of[t]].curved) {
      const Corners3& c = surface.triangles[t];
      sum += length(cross(surface.points[c[1]] - surface.points[c[0]],
                          surface.points[c[2]] - surface.points[c[0]])) /
             2;
    }
  }
  return sum;
}

}  // namespace geometry
