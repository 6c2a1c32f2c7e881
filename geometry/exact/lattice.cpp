#include "geometry/exact/lattice.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace geometry {

Cuboid to_cuboid(const LatticeBox& box) {
  Cuboid c{};
  for (std::size_t k = 0; k < 3; ++k) {
    c.lo[k] = box.lo[k].nanometres();
    c.hi[k] = box.hi[k].nanometres();
  }
  return c;
}

bool overlapping(const Cuboid& a, const Cuboid& b) {
  for (std::size_t k = 0; k < 3; ++k) {
    if (a.lo[k] >= b.hi[k] || b.lo[k] >= a.hi[k]) {
      return false;
    }
  }
  return true;
}

Int128 volume_nm3(const Cuboid& a) {
  return Int128{a.hi[0] - a.lo[0]} * (a.hi[1] - a.lo[1]) * (a.hi[2] - a.lo[2]);
}

void subtract(const Cuboid& a, const Cuboid& tool, std::vector<Cuboid>& out) {
  if (!overlapping(a, tool)) {
    out.push_back(a);
    return;
  }
  // The widest section first: a board with rabbets all round is then two boxes, not five, and a
  // side with eleven fingers is eleven.
  Cuboid rest = a;
  for (;;) {
    Int128 widest = 0;
    std::size_t axis = 0;
    bool low = true;
    for (std::size_t k = 0; k < 3; ++k) {
      const std::size_t u = (k + 1) % 3, v = (k + 2) % 3;
      const Int128 section = Int128{rest.hi[u] - rest.lo[u]} * (rest.hi[v] - rest.lo[v]);
      for (const bool at_low : {true, false}) {
        const bool cuts = at_low ? rest.lo[k] < tool.lo[k] : rest.hi[k] > tool.hi[k];
        if (cuts && section > widest) {
          widest = section;
          axis = k;
          low = at_low;
        }
      }
    }
    if (widest == 0) {
      return;
    }
    Cuboid outside = rest;
    if (low) {
      outside.hi[axis] = rest.lo[axis] = tool.lo[axis];
    } else {
      outside.lo[axis] = rest.hi[axis] = tool.hi[axis];
    }
    out.push_back(outside);
  }
}

namespace {

struct Halving {
  std::size_t axis;
  Nm at;
};

// A plane that leaves at most three quarters of the tools on either side, through as few as it can.
std::optional<Halving> halving(const Cuboid& a, const std::vector<Cuboid>& tools) {
  std::optional<Halving> best;
  std::size_t least = tools.size() * 3 / 4;
  for (std::size_t k = 0; k < 3; ++k) {
    std::vector<Nm> starts;
    for (const Cuboid& tool : tools) {
      starts.push_back(tool.lo[k]);
    }
    const auto middle = starts.begin() + static_cast<std::ptrdiff_t>(starts.size() / 2);
    std::nth_element(starts.begin(), middle, starts.end());
    if (*middle <= a.lo[k] || *middle >= a.hi[k]) {
      continue;
    }
    std::size_t low = 0, high = 0;
    for (const Cuboid& tool : tools) {
      low += tool.lo[k] < *middle ? 1 : 0;
      high += tool.hi[k] > *middle ? 1 : 0;
    }
    if (std::max(low, high) < least) {
      least = std::max(low, high);
      best = Halving{k, *middle};
    }
  }
  return best;
}

}  // namespace

void subtract(const Cuboid& a, const std::vector<Cuboid>& tools, std::vector<Cuboid>& out) {
  std::vector<Cuboid> near;
  std::copy_if(tools.begin(), tools.end(), std::back_inserter(near),
               [&](const Cuboid& tool) { return overlapping(a, tool); });
  // With more tools than this, what one has parted from the rest need not be asked about the
  // others; a thousand hollows scattered in a block otherwise shred it.
  constexpr std::size_t kFew = 48;
  const std::optional<Halving> half =
      near.size() > kFew ? halving(a, near) : std::optional<Halving>();
  if (half) {
    Cuboid low = a, high = a;
    low.hi[half->axis] = high.lo[half->axis] = half->at;
    subtract(low, near, out);
    subtract(high, near, out);
    return;
  }
  std::vector<Cuboid> boxes = {a};
  for (const Cuboid& tool : near) {
    std::vector<Cuboid> less;
    for (const Cuboid& box : boxes) {
      subtract(box, tool, less);
    }
    boxes = std::move(less);
  }
  out.insert(out.end(), boxes.begin(), boxes.end());
}

Rect face_of(const Cuboid& a, int axis) {
  const auto u = static_cast<std::size_t>(u_axis(axis)), v = static_cast<std::size_t>(v_axis(axis));
  return {a.lo[u], a.lo[v], a.hi[u], a.hi[v]};
}

std::optional<Rect> intersection(const Rect& a, const Rect& b) {
  const Rect r{std::max(a.u0, b.u0), std::max(a.v0, b.v0), std::min(a.u1, b.u1),
               std::min(a.v1, b.v1)};
  if (r.u0 >= r.u1 || r.v0 >= r.v1) {
    return std::nullopt;
  }
  return r;
}

bool subtract(const Rect& a, const Rect& b, std::vector<Rect>& out) {
  const std::optional<Rect> shared = intersection(a, b);
  if (!shared) {
    out.push_back(a);
    return false;
  }
  if (a.v0 < shared->v0) {
    out.push_back({a.u0, a.v0, a.u1, shared->v0});
  }
  if (shared->v1 < a.v1) {
    out.push_back({a.u0, shared->v1, a.u1, a.v1});
  }
  if (a.u0 < shared->u0) {
    out.push_back({a.u0, shared->v0, shared->u0, shared->v1});
  }
  if (shared->u1 < a.u1) {
    out.push_back({shared->u1, shared->v0, a.u1, shared->v1});
  }
  return true;
}

Int128 area_nm2(const Rect& a) {
  return Int128{a.u1 - a.u0} * (a.v1 - a.v0);
}

Nm to_nm(double mm) {
  return std::llround(mm * 1e6);
}

}  // namespace geometry
