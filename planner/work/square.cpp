#include "planner/work/square.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace planner::work {
namespace {

using Neighbours = std::vector<std::vector<PartId>>;

// A leg and a rail meet square to an axis; sides of an octagon don't.
bool square_on(const Joint& joint) {
  return std::ranges::any_of(joint.faces, [](const GlueFace& face) {
    return std::ranges::any_of(geometry::kAxis, [&](const geometry::Direction& axis) {
      return std::abs(dot(face.contact.normal, axis)) > 1 - 1e-6;
    });
  });
}

bool any_joint(const Joint&) {
  return true;
}

Neighbours neighbours_of(std::span<const Joint> joints, std::size_t parts,
                         bool (*counts)(const Joint&) = any_joint) {
  Neighbours neighbours(parts);
  for (const Joint& joint : joints) {
    if (joint.glued && counts(joint)) {
      neighbours[joint.parts[0]].push_back(joint.parts[1]);
      neighbours[joint.parts[1]].push_back(joint.parts[0]);
    }
  }
  for (auto& list : neighbours) {
    std::sort(list.begin(), list.end());
  }
  return neighbours;
}

bool touches(const Neighbours& neighbours, PartId a, PartId b) {
  return std::binary_search(neighbours[a].begin(), neighbours[a].end(), b);
}

// The axis along which two boxes stand clear of each other, and how far; the widest where several.
struct Clearance {
  int axis = -1;
  double mm = 0;
};
Clearance clearance(const geometry::Box& a, const geometry::Box& b) {
  Clearance best;
  for (int axis = 0; axis < 3; ++axis) {
    const auto k = static_cast<std::size_t>(axis);
    const double apart = std::max(b.lo[k] - a.hi[k], a.lo[k] - b.hi[k]);
    if (apart > best.mm) {
      best = {axis, apart};
    }
  }
  return best;
}

// What four sides go round: how far the first is from the third, and the second from the fourth.
struct Opening {
  Clearance one, other;
  int normal_axis() const { return 3 - one.axis - other.axis; }
};
std::optional<Opening> opening_of(const std::array<PartId, 4>& p, std::span<const geometry::Box> bounds) {
  const Opening out{clearance(bounds[p[0]], bounds[p[2]]), clearance(bounds[p[1]], bounds[p[3]])};
  const bool crossed = out.one.axis >= 0 && out.other.axis >= 0 && out.one.axis != out.other.axis;
  return crossed ? std::optional(out) : std::nullopt;
}

// Of four sides, and all that stands between them.
std::optional<Ring> ring_of(const std::array<PartId, 4>& p, std::vector<PartId> all,
                            std::span<const geometry::Box> bounds) {
  const auto opening = opening_of(p, bounds);
  if (!opening) {
    return std::nullopt;
  }
  const auto& [one, other] = *opening;
  Ring ring;
  ring.parts = std::move(all);
  ring.normal_axis = opening->normal_axis();
  const bool one_first = one.axis < other.axis;
  ring.inside_mm = one_first ? std::array{one.mm, other.mm} : std::array{other.mm, one.mm};
  std::size_t side = 0;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    if (static_cast<int>(axis) == ring.normal_axis) {
      continue;
    }
    double lo = bounds[p[0]].lo[axis], hi = bounds[p[0]].hi[axis];
    for (PartId part : ring.parts) {
      lo = std::min(lo, bounds[part].lo[axis]);
      hi = std::max(hi, bounds[part].hi[axis]);
    }
    ring.outside_mm[side++] = hi - lo;
  }
  return ring;
}

// How many of the ring's parts a part lies over, on which side of the ring.
bool shuts(PartId part, const Ring& ring, const Neighbours& neighbours,
           std::span<const geometry::Box> bounds, bool high_side) {
  const auto k = static_cast<std::size_t>(ring.normal_axis);
  int over = 0;
  for (PartId wall : ring.parts) {
    const double wall_middle = (bounds[wall].lo[k] + bounds[wall].hi[k]) / 2;
    const double middle = (bounds[part].lo[k] + bounds[part].hi[k]) / 2;
    over += touches(neighbours, part, wall) && (middle > wall_middle) == high_side ? 1 : 0;
  }
  return over >= 3;
}

bool shut_on_both_sides(const Ring& ring, const Neighbours& neighbours,
                        std::span<const geometry::Box> bounds) {
  bool high = false, low = false;
  for (PartId part = 0; part < bounds.size(); ++part) {
    if (std::find(ring.parts.begin(), ring.parts.end(), part) == ring.parts.end()) {
      high = high || shuts(part, ring, neighbours, bounds, true);
      low = low || shuts(part, ring, neighbours, bounds, false);
    }
  }
  return high && low;
}

// A ring one can look into beats a shut one; of shut ones the upright one, whose lid goes on from
// above; then the larger opening.
std::vector<Ring> best_first(std::vector<Ring> rings, const Neighbours& neighbours,
                             std::span<const geometry::Box> bounds) {
  struct Ranked {
    Ring ring;
    std::pair<bool, bool> rank;
    double opening_mm2 = 0;
  };
  std::vector<Ranked> ranked;
  for (Ring& ring : rings) {
    const bool open = !shut_on_both_sides(ring, neighbours, bounds);
    const double opening_mm2 = ring.inside_mm[0] * ring.inside_mm[1];
    ranked.push_back({std::move(ring), {open, !open && ring.normal_axis == 2}, opening_mm2});
  }
  std::ranges::stable_sort(ranked, [](const Ranked& a, const Ranked& b) {
    return a.rank != b.rank ? a.rank > b.rank : a.opening_mm2 > b.opening_mm2 * (1 + 1e-9);
  });
  std::ranges::transform(ranked, rings.begin(), [](Ranked& r) { return std::move(r.ring); });
  return rings;
}

}  // namespace

namespace {

// A leg that joins two rails which don't touch: longest along the ring's normal.
std::optional<PartId> leg_between(PartId a, PartId b, const Neighbours& neighbours,
                                  std::span<const geometry::Box> bounds, int normal_axis) {
  for (const PartId leg : neighbours[a]) {
    const geometry::Box& box = bounds[leg];
    const auto side = [&box](int axis) {
      const auto k = static_cast<std::size_t>(axis);
      return box.hi[k] - box.lo[k];
    };
    const bool upright = side(normal_axis) > side((normal_axis + 1) % 3) &&
                         side(normal_axis) > side((normal_axis + 2) % 3);
    if (upright && touches(neighbours, b, leg)) {
      return leg;
    }
  }
  return std::nullopt;
}

// Rails that a leg joins to this one.
std::vector<PartId> rails_round(PartId rail, const Neighbours& neighbours) {
  std::vector<PartId> others;
  for (const PartId leg : neighbours[rail]) {
    for (const PartId other : neighbours[leg]) {
      if (other != rail && !touches(neighbours, rail, other)) {
        others.push_back(other);
      }
    }
  }
  std::sort(others.begin(), others.end());
  others.erase(std::unique(others.begin(), others.end()), others.end());
  return others;
}

std::optional<Ring> ring_with_legs(const std::array<PartId, 4>& rails, const Neighbours& neighbours,
                                   std::span<const geometry::Box> bounds) {
  const auto opening = opening_of(rails, bounds);
  if (!opening) {
    return std::nullopt;
  }
  std::vector<PartId> all;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto leg =
        leg_between(rails[i], rails[(i + 1) % 4], neighbours, bounds, opening->normal_axis());
    if (!leg || std::find(all.begin(), all.end(), *leg) != all.end()) {
      return std::nullopt;
    }
    all.push_back(rails[i]);
    all.push_back(*leg);
  }
  return ring_of(rails, std::move(all), bounds);
}

std::span<const PartId> after(const std::vector<PartId>& ascending, PartId part) {
  return {std::ranges::upper_bound(ascending, part), ascending.end()};
}

// Of legs and rails, as of a table's base.
void add_rings_with_legs(const Neighbours& neighbours, std::span<const geometry::Box> bounds,
                         std::vector<Ring>& rings) {
  Neighbours rails;  // that a leg joins to each part
  for (PartId part = 0; part < bounds.size(); ++part) {
    rails.push_back(rails_round(part, neighbours));
  }
  std::vector<PartId> opposite;
  for (PartId a = 0; a < bounds.size(); ++a) {
    for (auto one = rails[a].begin(); one != rails[a].end(); ++one) {
      for (auto other = one + 1; other != rails[a].end(); ++other) {
        opposite.clear();
        std::ranges::set_intersection(after(rails[*other], a), after(rails[*one], a),
                                      std::back_inserter(opposite));
        for (const PartId c : opposite) {
          if (auto ring = ring_with_legs({a, *one, c, *other}, neighbours, bounds)) {
            rings.push_back(std::move(*ring));
          }
        }
      }
    }
  }
}

// Of four parts.
void add_plain_rings(const Neighbours& neighbours, std::span<const geometry::Box> bounds,
                     std::vector<Ring>& rings) {
  for (PartId a = 0; a < bounds.size(); ++a) {
    for (PartId c = a + 1; c < bounds.size(); ++c) {
      if (touches(neighbours, a, c)) {
        continue;
      }
      std::vector<PartId> between;
      std::set_intersection(neighbours[a].begin(), neighbours[a].end(), neighbours[c].begin(),
                            neighbours[c].end(), std::back_inserter(between));
      for (std::size_t i = 0; i < between.size(); ++i) {
        for (std::size_t j = i + 1; j < between.size(); ++j) {
          const std::array<PartId, 4> parts{a, between[i], c, between[j]};
          // Each is met from either of its two pairs of sides.
          if (touches(neighbours, between[i], between[j]) || a > between[i]) {
            continue;
          }
          if (auto ring = ring_of(parts, {parts.begin(), parts.end()}, bounds)) {
            rings.push_back(std::move(*ring));
          }
        }
      }
    }
  }
}

// Two cells of one grid: two sides that lie opposite one another are theirs both.
bool of_one_outline(const Ring& a, const Ring& b, const Neighbours& neighbours) {
  std::vector<PartId> shared;
  std::ranges::copy_if(a.parts, std::back_inserter(shared), [&](PartId part) {
    return std::ranges::find(b.parts, part) != b.parts.end();
  });
  return a.normal_axis == b.normal_axis &&
         std::ranges::any_of(shared, [&](PartId one) {
           return std::ranges::any_of(shared, [&](PartId other) {
             return one != other && !touches(neighbours, one, other);
           });
         });
}

// A cell of a grid, within the outline and as thick.
bool lies_in(const Ring& cell, const Ring& outline, std::span<const geometry::Box> bounds) {
  const auto extent = [&](const Ring& ring, std::size_t axis) {
    geometry::Extent out{1e300, -1e300};
    for (const PartId part : ring.parts) {
      out = {std::min(out.lo, bounds[part].lo[axis]), std::max(out.hi, bounds[part].hi[axis])};
    }
    return out;
  };
  constexpr double kOff_mm = 0.1;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const geometry::Extent own = extent(cell, axis), whole = extent(outline, axis);
    if (own.lo < whole.lo - kOff_mm || own.hi > whole.hi + kOff_mm) {
      return false;
    }
  }
  return cell.normal_axis == outline.normal_axis;
}

bool shut(const Ring& ring, const Neighbours& neighbours, std::span<const geometry::Box> bounds) {
  for (PartId part = 0; part < bounds.size(); ++part) {
    if (std::ranges::find(ring.parts, part) == ring.parts.end() &&
        (shuts(part, ring, neighbours, bounds, true) ||
         shuts(part, ring, neighbours, bounds, false))) {
      return true;
    }
  }
  return false;
}

}  // namespace

bool in_ring(const Joint& joint, const Ring& ring) {
  const std::size_t n = ring.parts.size();
  for (std::size_t i = 0; i < n; ++i) {
    const PartId a = ring.parts[i], b = ring.parts[(i + 1) % n];
    if (joint.parts == std::array{std::min(a, b), std::max(a, b)}) {
      return true;
    }
  }
  return false;
}

std::vector<Ring> find_rings(std::span<const Joint> joints,
                             std::span<const geometry::Box> bounds) {
  const Neighbours neighbours = neighbours_of(joints, bounds.size());
  std::vector<Ring> plain, legged;
  add_plain_rings(neighbours, bounds, plain);
  add_rings_with_legs(neighbours_of(joints, bounds.size(), square_on), bounds, legged);
  std::vector<Ring> taken;
  for (std::vector<Ring>* of_kind : {&plain, &legged}) {
    for (const Ring& ring : best_first(std::move(*of_kind), neighbours, bounds)) {
      const bool cell = std::ranges::any_of(
          taken, [&](const Ring& other) {
            return of_one_outline(ring, other, neighbours) || lies_in(ring, other, bounds);
          });
      if (!cell && (taken.empty() || !shut(ring, neighbours, bounds))) {
        taken.push_back(ring);
      }
    }
  }
  return taken;
}

std::optional<Ring> find_ring(std::span<const Joint> joints,
                              std::span<const geometry::Box> bounds) {
  const std::vector<Ring> rings = find_rings(joints, bounds);
  return rings.empty() ? std::nullopt : std::optional(rings.front());
}

std::optional<PartId> closing_part(const Ring& ring, std::span<const Joint> joints,
                                   std::span<const geometry::Box> bounds) {
  const Neighbours neighbours = neighbours_of(joints, bounds.size());
  std::optional<PartId> high, low;
  for (PartId part = 0; part < bounds.size(); ++part) {
    if (std::find(ring.parts.begin(), ring.parts.end(), part) != ring.parts.end()) {
      continue;
    }
    if (shuts(part, ring, neighbours, bounds, true)) {
      high = part;
    } else if (shuts(part, ring, neighbours, bounds, false)) {
      low = part;
    }
  }
  return high && low ? high : std::nullopt;
}

}  // namespace planner::work
