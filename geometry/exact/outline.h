// The outline of a union of disjoint pieces in a plane: edges that two pieces share cancel, what
// remains is chained into rings. Exact in the number type given. For geometry/*.cpp only.
#pragma once
#include <algorithm>
#include <iterator>
#include <utility>
#include <vector>

#include "geometry/exact/lattice.h"

namespace geometry {

template <class N>
struct FlatPoint {
  N u, v;
  friend bool operator==(const FlatPoint&, const FlatPoint&) = default;
  friend bool operator<(const FlatPoint& a, const FlatPoint& b) {
    return a.u < b.u || (a.u == b.u && a.v < b.v);
  }
};

// The piece lies to the left.
template <class N>
struct FlatEdge {
  FlatPoint<N> from, to;
};

template <class N>
struct FlatRegion {
  std::vector<FlatPoint<N>> outer;               // counter-clockwise
  std::vector<std::vector<FlatPoint<N>>> holes;  // clockwise
};

namespace outline_detail {

template <class N>
struct Product {
  using Type = N;
};
template <>
struct Product<Nm> {
  using Type = Int128;
};

template <class N>
using Wide = typename Product<N>::Type;

template <class N>
Wide<N> cross(const FlatPoint<N>& o, const FlatPoint<N>& a, const FlatPoint<N>& b) {
  const N au = a.u - o.u, av = a.v - o.v, bu = b.u - o.u, bv = b.v - o.v;
  return Wide<N>(au) * Wide<N>(bv) - Wide<N>(av) * Wide<N>(bu);
}

// A change of cover along a line: +1 where an edge running up the line begins, -1 where it ends.
template <class N>
struct Event {
  bool upright;  // u is constant, v runs
  N slope, intercept;
  N at;
  int change;
  FlatPoint<N> point;
};

template <class N>
Event<N> line_of(const FlatEdge<N>& e) {
  if (e.from.u == e.to.u) {
    return {true, N(0), e.from.u, e.from.v, 0, e.from};
  }
  // Edges on the lattice are all level or upright, so that this division has no remainder.
  const N du = e.to.u - e.from.u, dv = e.to.v - e.from.v;
  const N slope = dv / du;
  const N intercept = e.from.v - slope * e.from.u;
  return {false, slope, intercept, e.from.u, 0, e.from};
}

template <class N>
bool same_line(const Event<N>& a, const Event<N>& b) {
  return a.upright == b.upright && a.slope == b.slope && a.intercept == b.intercept;
}

template <class N>
bool along_lines(const Event<N>& a, const Event<N>& b) {
  if (a.upright != b.upright) {
    return a.upright < b.upright;
  }
  if (a.slope != b.slope) {
    return a.slope < b.slope;
  }
  if (a.intercept != b.intercept) {
    return a.intercept < b.intercept;
  }
  return a.at < b.at;
}

// What is left of the edges once shared stretches have cancelled, sorted by start.
template <class N>
std::vector<FlatEdge<N>> rim_edges(const std::vector<FlatEdge<N>>& edges) {
  std::vector<Event<N>> events;
  events.reserve(2 * edges.size());
  for (const FlatEdge<N>& e : edges) {
    // Whichever way the edge runs, cover to its left begins where it starts and ends where it ends:
    // seen up the line, an edge running down counts -1 in between.
    Event<N> first = line_of(e);
    Event<N> last = first;
    last.at = first.upright ? e.to.v : e.to.u;
    last.point = e.to;
    first.change = 1;
    last.change = -1;
    events.push_back(std::move(first));
    events.push_back(std::move(last));
  }
  std::sort(events.begin(), events.end(), along_lines<N>);
  std::vector<FlatEdge<N>> rim;
  int cover = 0;
  FlatPoint<N> since{};
  for (std::size_t i = 0; i < events.size();) {
    std::size_t j = i;
    int change = 0;
    while (j < events.size() && same_line(events[i], events[j]) && events[i].at == events[j].at) {
      change += events[j++].change;
    }
    if (change != 0) {
      if (cover > 0) {
        rim.push_back({since, events[i].point});
      } else if (cover < 0) {
        rim.push_back({events[i].point, since});
      }
      cover += change;
      since = events[i].point;
    }
    i = j;
  }
  std::sort(rim.begin(), rim.end(), [](const FlatEdge<N>& a, const FlatEdge<N>& b) {
    return a.from < b.from || (a.from == b.from && a.to < b.to);
  });
  return rim;
}

// How far counter-clockwise from `out` to `back` at `o`, as a class: under, at, over a half turn.
template <class N>
int turn_class(const FlatPoint<N>& o, const FlatPoint<N>& out, const FlatPoint<N>& back) {
  const Wide<N> c = cross(o, out, back);
  return c > 0 ? 0 : c == 0 ? 1 : 2;
}

// Of the edges that leave the end of `arriving`, the one whose wedge to its left holds no other: a
// region that touches itself in a point is parted there. Each edge follows exactly one other.
template <class N>
std::size_t follower(const std::vector<FlatEdge<N>>& rim, const FlatEdge<N>& arriving) {
  const auto first =
      std::lower_bound(rim.begin(), rim.end(), arriving.to,
                       [](const FlatEdge<N>& e, const FlatPoint<N>& p) { return e.from < p; });
  auto best = first;
  for (auto it = std::next(first); it != rim.end() && it->from == arriving.to; ++it) {
    const int mine = turn_class(arriving.to, it->to, arriving.from);
    const int its = turn_class(arriving.to, best->to, arriving.from);
    if (mine < its || (mine == its && cross(arriving.to, best->to, it->to) > 0)) {
      best = it;
    }
  }
  return static_cast<std::size_t>(best - rim.begin());
}

template <class N>
Wide<N> twice_area(const std::vector<FlatPoint<N>>& ring) {
  Wide<N> sum(0);
  for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
    sum += cross(ring[0], ring[i], ring[i + 1]);
  }
  return sum;
}

// Inside or on the ring.
template <class N>
bool holds(const std::vector<FlatPoint<N>>& ring, const FlatPoint<N>& p) {
  bool inside = false;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const FlatPoint<N>&a = ring[j], &b = ring[i];
    const Wide<N> c = cross(a, b, p);
    if (c == 0 && std::min(a.u, b.u) <= p.u && p.u <= std::max(a.u, b.u) &&
        std::min(a.v, b.v) <= p.v && p.v <= std::max(a.v, b.v)) {
      return true;
    }
    if ((a.v > p.v) != (b.v > p.v) && (c > 0) == (b.v > a.v)) {
      inside = !inside;
    }
  }
  return inside;
}

}  // namespace outline_detail

// Connected regions, largest first, ties by lowest corner. Each ring begins at its lowest corner
// and has no corner on a straight stretch. REQUIRES: the pieces whose edges these are do not
// overlap; for whole nanometres, all edges level or upright.
template <class N>
std::vector<FlatRegion<N>> outline(const std::vector<FlatEdge<N>>& edges) {
  using namespace outline_detail;
  struct Found {
    FlatRegion<N> region;
    Wide<N> twice_area;  // of the outer ring
    Wide<N> net;
  };
  const std::vector<FlatEdge<N>> rim = rim_edges(edges);
  std::vector<bool> used(rim.size(), false);
  std::vector<Found> found;
  std::vector<std::pair<Wide<N>, std::vector<FlatPoint<N>>>> holes;
  for (std::size_t start = 0; start < rim.size(); ++start) {
    if (used[start]) {
      continue;
    }
    std::vector<FlatPoint<N>> ring;
    for (std::size_t i = start; !used[i]; i = follower(rim, rim[i])) {
      used[i] = true;
      ring.push_back(rim[i].from);
    }
    const Wide<N> twice = twice_area(ring);
    if (twice > 0) {
      found.push_back({{std::move(ring), {}}, twice, twice});
    } else {
      holes.emplace_back(-twice, std::move(ring));
    }
  }
  for (auto& [twice, ring] : holes) {
    Found* around = nullptr;
    for (Found& f : found) {
      const bool may = f.twice_area > twice && (!around || f.twice_area < around->twice_area);
      if (may && (found.size() == 1 || holds(f.region.outer, ring.front()))) {
        around = &f;
      }
    }
    if (around) {
      around->net -= twice;
      around->region.holes.push_back(std::move(ring));
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Found& a, const Found& b) { return a.net > b.net; });
  std::vector<FlatRegion<N>> regions;
  regions.reserve(found.size());
  for (Found& f : found) {
    regions.push_back(std::move(f.region));
  }
  return regions;
}

}  // namespace geometry
