#include "geometry/blocking.h"

#include <optional>

#include "geometry/exact/body.h"
#include "geometry/separation.h"

namespace geometry {
namespace {

// A direction along an axis; there boxes need no more than comparisons.
struct AxisWay {
  std::size_t axis;
  bool up;
};

std::optional<AxisWay> axis_way(const Direction& d) {
  for (std::size_t k = 0; k < 3; ++k) {
    if (d[(k + 1) % 3] == 0 && d[(k + 2) % 3] == 0) {
      return AxisWay{k, d[k] > 0};
    }
  }
  return std::nullopt;
}

bool box_in_way(const Cuboid& mover, const Cuboid& other, AxisWay way, Nm sliver) {
  for (std::size_t k = 0; k < 3; ++k) {
    if (k == way.axis) {
      const Nm ahead = way.up ? other.hi[k] - mover.lo[k] : mover.hi[k] - other.lo[k];
      if (ahead <= sliver) {
        return false;
      }
    } else if (std::min(mover.hi[k], other.hi[k]) - std::max(mover.lo[k], other.lo[k]) <= sliver) {
      return false;
    }
  }
  return true;
}

// Necessary for anything in `mover` to run into anything in `other` along d: the moved box meets
// the other's on each axis that d does not move along, and is not already past it on the rest.
bool box_may_be_in_way(const Box& mover, const Box& other, const Direction& d, double sliver_mm) {
  for (std::size_t k = 0; k < 3; ++k) {
    const bool past_low = other.hi[k] - mover.lo[k] <= sliver_mm;
    const bool past_high = mover.hi[k] - other.lo[k] <= sliver_mm;
    if ((d[k] >= 0 && past_low) || (d[k] <= 0 && past_high)) {
      return false;
    }
  }
  return true;
}

bool body_in_way(const Solid::Body& mover, const Solid::Body& other, const Direction& d,
                 const std::optional<AxisWay>& way, double sliver_mm) {
  const std::size_t boxes_m = way ? mover.cells.boxes.size() : 0;
  const std::size_t boxes_o = way ? other.cells.boxes.size() : 0;
  const Nm sliver = to_nm(sliver_mm);
  const std::vector<RoundedCell>&movers = mover.rounded(), &others = other.rounded();
  for (std::size_t i = 0; i < movers.size(); ++i) {
    const RoundedCell& m = movers[i];
    if (!box_may_be_in_way(m.box, other.bounds(), d, sliver_mm)) {
      continue;
    }
    for (std::size_t j = 0; j < others.size(); ++j) {
      if (i < boxes_m && j < boxes_o) {
        if (box_in_way(mover.cells.boxes[i], other.cells.boxes[j], *way, sliver)) {
          return true;
        }
        continue;
      }
      const RoundedCell& o = others[j];
      if (box_may_be_in_way(m.box, o.box, d, sliver_mm) && runs_into(m, o, d, sliver_mm)) {
        return true;
      }
    }
  }
  return false;
}

}  // namespace

Blocking find_blocking(std::span<const Solid> solids, std::span<const Direction> directions,
                       const Tolerance& tolerance) {
  Blocking blocking(directions.size(), solids.size());
  for (std::size_t n = 0; n < directions.size(); ++n) {
    const Direction d = unit(directions[n]);
    const std::optional<AxisWay> way = axis_way(d);
    for (std::size_t i = 0; i < solids.size(); ++i) {
      for (std::size_t j = 0; j < solids.size(); ++j) {
        if (i == j || is_empty(solids[i]) || is_empty(solids[j])) {
          continue;
        }
        const Solid::Body &mover = solids[i].body(), &other = solids[j].body();
        if (box_may_be_in_way(mover.bounds(), other.bounds(), d, tolerance.sliver_mm) &&
            body_in_way(mover, other, d, way, tolerance.sliver_mm)) {
          blocking.set_blocked(n, i, j);
        }
      }
    }
  }
  return blocking;
}

}  // namespace geometry
