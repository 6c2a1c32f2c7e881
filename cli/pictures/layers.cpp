#include "cli/pictures/layers.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "geometry/elementary.h"

namespace cli::pictures {
namespace {

using model::Point2;

constexpr double kTouch_mm = 0.05;  // nearer is on the rim, or in one plane

// A face as it is seen.
struct Flat {
  std::vector<std::vector<Point2>> rings;
  double u0 = 1e300, u1 = -1e300, v0 = 1e300, v1 = -1e300;
  double nearness0 = 0, per_u = 0, per_v = 0;
  double nearness(Point2 p) const { return nearness0 + per_u * p.u + per_v * p.v; }
};

Flat flat_of(const Face& face, const model::View& view) {
  Flat out;
  for (const geometry::Ring& ring : face.rings) {
    std::vector<Point2>& flat = out.rings.emplace_back();
    for (const geometry::Point& p : ring) {
      const Point2 at = view.at(p);
      flat.push_back(at);
      out.u0 = std::min(out.u0, at.u);
      out.u1 = std::max(out.u1, at.u);
      out.v0 = std::min(out.v0, at.v);
      out.v1 = std::max(out.v1, at.v);
    }
  }
  const double facing = dot(face.normal, view.eye);
  out.nearness0 = dot(face.rings.front().front(), face.normal) / facing;
  out.per_u = -dot(face.normal, view.right) / facing;
  out.per_v = -dot(face.normal, view.up) / facing;
  return out;
}

template <typename Act>
void each_edge(const Flat& flat, const Act& act) {
  for (const std::vector<Point2>& ring : flat.rings) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      act(ring[i], ring[(i + 1) % ring.size()]);
    }
  }
}

double off_line(Point2 p, Point2 a, Point2 b) {
  const double u = b.u - a.u, v = b.v - a.v, run = std::max(1e-12, geometry::hypotenuse(u, v));
  return (u * (p.v - a.v) - v * (p.u - a.u)) / run;
}

// Whether a point lies in the face or on its rim.
bool holds_point(const Flat& flat, Point2 p) {
  bool in = false, rim = false;
  each_edge(flat, [&](Point2 a, Point2 b) {
    const bool beside = p.u > std::min(a.u, b.u) - kTouch_mm && p.u < std::max(a.u, b.u) + kTouch_mm &&
                        p.v > std::min(a.v, b.v) - kTouch_mm && p.v < std::max(a.v, b.v) + kTouch_mm;
    rim = rim || (beside && std::abs(off_line(p, a, b)) < kTouch_mm);
    if ((a.v > p.v) != (b.v > p.v) && p.u < a.u + (p.v - a.v) / (b.v - a.v) * (b.u - a.u)) {
      in = !in;
    }
  });
  return in || rim;
}

// The corners of what two faces have in common on the sheet: between them depths lie on lines.
std::vector<Point2> common_corners(const Flat& one, const Flat& other) {
  std::vector<Point2> out;
  const auto add_corners = [&out](const Flat& of, const Flat& in) {
    each_edge(of, [&](Point2 a, Point2) {
      if (holds_point(in, a)) {
        out.push_back(a);
      }
    });
  };
  add_corners(one, other);
  add_corners(other, one);
  each_edge(one, [&](Point2 a, Point2 b) {
    each_edge(other, [&](Point2 c, Point2 d) {
      const double hc = off_line(c, a, b), hd = off_line(d, a, b), ha = off_line(a, c, d), hb = off_line(b, c, d);
      if ((hc > 0) != (hd > 0) && (ha > 0) != (hb > 0)) {
        const double t = ha / (ha - hb);
        out.push_back({a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)});
      }
    });
  });
  return out;
}

bool are_wider(const std::vector<Point2>& points, double least_mm) {
  if (points.size() < 3) {
    return false;
  }
  const Point2 a = points.front();
  const auto away = [&](Point2 p) { return geometry::hypotenuse(p.u - a.u, p.v - a.v); };
  const Point2 b = *std::ranges::max_element(points, {}, away);
  return std::any_of(points.begin(), points.end(),
                     [&](Point2 p) { return std::abs(off_line(p, a, b)) > least_mm; });
}

// Sides of blocks are convex.
bool is_plain(const Flat& flat) {
  return flat.rings.size() == 1 && flat.rings.front().size() == 4;
}

struct Order {
  bool first_behind = false, first_before = false;  // both: each covers some of the other
  bool crossing = false;  // they pass through one another
};
Order order_of(const Flat& one, const Flat& other, double least_mm) {
  if (one.u0 > other.u1 || other.u0 > one.u1 || one.v0 > other.v1 || other.v0 > one.v1) {
    return {};
  }
  const std::vector<Point2> corners = common_corners(one, other);
  if (!are_wider(corners, least_mm)) {
    return {};
  }
  geometry::Extent nearer{0, 0};
  for (const Point2& p : corners) {
    const double by = one.nearness(p) - other.nearness(p);
    nearer = {std::min(nearer.lo, by), std::max(nearer.hi, by)};
  }
  Order out{nearer.lo < -kTouch_mm, nearer.hi > kTouch_mm, false};
  if (out.first_behind && out.first_before && is_plain(one) && is_plain(other)) {
    // As a bar does through a caul that would be cut shorter: the one that stands out farther is drawn over the other.
    out = {-nearer.lo > nearer.hi, -nearer.lo <= nearer.hi, true};
  }
  // In one plane they keep their order.
  out.first_behind = out.first_behind || !out.first_before;
  return out;
}

class Sorter {
  using Ids = std::vector<std::size_t>;

 public:
  Sorter(std::vector<Face> faces, const model::View& view, double least_mm)
      : faces_(std::move(faces)), eye_(view.eye), behind_(faces_.size()), before_(faces_.size()) {
    std::vector<Flat> flat;
    for (const Face& face : faces_) {
      flat.push_back(flat_of(face, view));
    }
    for (std::size_t i = 0; i < flat.size(); ++i) {
      for (std::size_t j = i + 1; j < flat.size(); ++j) {
        const Order order = order_of(flat[i], flat[j], least_mm);
        if (order.first_behind) {
          put_behind(i, j, order.crossing);
        }
        if (order.first_before) {
          put_behind(j, i, order.crossing);
        }
      }
    }
  }

  std::vector<Layer> layers() {
    Ids rest(faces_.size());
    for (std::size_t i = 0; i < rest.size(); ++i) {
      rest[i] = i;
    }
    // In a circle, what passes through one another goes without an order of its own, and is cut only then.
    Ids first = peeled(rest, behind_), last = peeled(rest, before_);
    for (const auto& [i, j] : crossing_) {
      if (holds_id(rest, i) && holds_id(rest, j)) {
        std::erase(behind_[j], i);
        std::erase(before_[i], j);
      }
    }
    const Ids more_first = peeled(rest, behind_), more_last = peeled(rest, before_);
    first.insert(first.end(), more_first.begin(), more_first.end());
    last.insert(last.end(), more_last.begin(), more_last.end());
    add_whole(first);
    add_cut(rest);
    add_whole(last);
    return std::move(out_);
  }

 private:
  static bool holds_id(const Ids& ids, std::size_t id) { return std::find(ids.begin(), ids.end(), id) != ids.end(); }
  void put_behind(std::size_t i, std::size_t j, bool crossing) {
    behind_[j].push_back(i);
    before_[i].push_back(j);
    if (crossing) {
      crossing_.push_back({i, j});
    }
  }

  // Takes from `rest` what has nothing of it on that side, again and again.
  static Ids peeled(Ids& rest, const std::vector<Ids>& side) {
    Ids out;
    for (bool found = true; found;) {
      std::vector<bool> there(side.size());
      for (const std::size_t i : rest) {
        there[i] = true;
      }
      const auto is_free = [&](std::size_t i) {
        return std::none_of(side[i].begin(), side[i].end(), [&](std::size_t j) { return there[j]; });
      };
      const std::size_t before = out.size();
      std::copy_if(rest.begin(), rest.end(), std::back_inserter(out), is_free);
      std::erase_if(rest, is_free);
      found = out.size() > before;
    }
    return out;
  }

  // Of what is free to be painted, all of the commonest filling, until nothing is left.
  void add_whole(Ids ids) {
    std::sort(ids.begin(), ids.end());
    std::vector<bool> waits(faces_.size());
    for (const std::size_t i : ids) {
      waits[i] = true;
    }
    while (!ids.empty()) {
      std::map<int, Ids> ready;
      for (const std::size_t i : ids) {
        if (std::none_of(behind_[i].begin(), behind_[i].end(), [&](std::size_t j) { return waits[j]; })) {
          ready[faces_[i].fill].push_back(i);
        }
      }
      const auto& [fill, now] = *std::max_element(
          ready.begin(), ready.end(), [](const auto& a, const auto& b) { return a.second.size() < b.second.size(); });
      Layer& layer = out_.emplace_back(Layer{fill, false, {}});
      for (const std::size_t i : now) {
        waits[i] = false;
        layer.faces.push_back(std::move(faces_[i]));
      }
      std::erase_if(ids, [&](std::size_t i) { return !waits[i]; });
    }
  }

  void add_cut(const Ids& ids) {
    std::vector<Face> circle;
    for (const std::size_t i : ids) {
      circle.push_back(std::move(faces_[i]));
    }
    const std::size_t first = out_.size();
    for (Face& face : painted_order(std::move(circle), eye_)) {
      if (out_.size() == first || out_.back().fill != face.fill) {
        out_.push_back({face.fill, true, {}});
      }
      out_.back().faces.push_back(std::move(face));
    }
  }

  std::vector<Face> faces_;
  geometry::Direction eye_;
  std::vector<Ids> behind_, before_;
  std::vector<std::pair<std::size_t, std::size_t>> crossing_;
  std::vector<Layer> out_;
};

}  // namespace

std::vector<Layer> painted_layers(std::vector<Face> faces, const model::View& view, double least_mm) {
  std::erase_if(faces, [&](const Face& face) { return !(dot(face.normal, view.eye) > 1e-6) || face.rings.empty(); });
  return Sorter(std::move(faces), view, least_mm).layers();
}

}  // namespace cli::pictures
