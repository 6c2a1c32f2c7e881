#include "planner/stage/like_ends.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "planner/stage/stage_reach.h"

namespace planner::stage {
namespace {

using Parts = std::vector<work::PartId>;

constexpr double kLike_mm = 0.01;
constexpr std::size_t kAtOnce = 4;    // glued joints that nobody stages
constexpr std::size_t kLeastParts = 3;  // two legs and a rail
constexpr double kFlat = 0.5;         // its depth, over its smaller side

double lo(const geometry::Box& box, std::size_t axis) { return box.lo[axis]; }
double hi(const geometry::Box& box, std::size_t axis) { return box.hi[axis]; }

std::size_t longest(const geometry::Box& box) {
  std::size_t axis = 0;
  for (std::size_t k = 1; k < 3; ++k) {
    axis = hi(box, k) - lo(box, k) > hi(box, axis) - lo(box, axis) ? k : axis;
  }
  return axis;
}

std::array<double, 3> size_of(const Parts& parts, std::span<const geometry::Box> bounds) {
  return stage_reach({{parts}, {}}, bounds).sizes();
}

bool both_in(const work::Joint& joint, const Parts& parts) {
  return std::ranges::all_of(joint.parts, [&](work::PartId part) {
    return std::ranges::find(parts, part) != parts.end();
  });
}

// The parts that lie no deeper than those that begin at that side of the work.
Parts parts_at(std::size_t axis, bool low, std::span<const geometry::Box> bounds) {
  double least = lo(bounds.front(), axis), most = hi(bounds.front(), axis);
  for (const geometry::Box& box : bounds) {
    least = std::min(least, lo(box, axis));
    most = std::max(most, hi(box, axis));
  }
  // From that side inwards.
  const auto from = [&](const geometry::Box& box) {
    return low ? lo(box, axis) - least : most - hi(box, axis);
  };
  const auto to = [&](const geometry::Box& box) {
    return low ? hi(box, axis) - least : most - lo(box, axis);
  };
  double depth = 0;
  for (const geometry::Box& box : bounds) {
    if (from(box) < kLike_mm && to(box) < (most - least) / 2) {
      depth = std::max(depth, to(box));
    }
  }
  Parts parts;
  for (work::PartId part = 0; part < bounds.size(); ++part) {
    if (to(bounds[part]) < depth + kLike_mm) {
      parts.push_back(part);
    }
  }
  return parts;
}

// All in one, each part glued across its neighbours, as rails are across legs.
bool of_legs_and_rails(const Parts& parts, std::span<const work::Joint> joints,
                       std::span<const geometry::Box> bounds) {
  std::map<work::PartId, work::PartId> root;
  for (const work::PartId part : parts) {
    root[part] = part;
  }
  std::size_t groups = parts.size();
  for (const work::Joint& joint : joints) {
    if (!both_in(joint, parts)) {
      continue;
    }
    if (joint.glued && longest(bounds[joint.parts[0]]) == longest(bounds[joint.parts[1]])) {
      return false;
    }
    const work::PartId from = root[joint.parts[0]], to = root[joint.parts[1]];
    groups -= from != to ? 1 : 0;
    for (auto& [part, its] : root) {
      its = its == from ? to : its;
    }
  }
  return groups == 1;
}

std::vector<std::array<double, 3>> sizes(const Parts& parts,
                                         std::span<const geometry::Box> bounds) {
  std::vector<std::array<double, 3>> out;
  for (const work::PartId part : parts) {
    out.push_back(size_of({part}, bounds));
  }
  std::ranges::sort(out);
  return out;
}

bool alike(const Parts& one, const Parts& other, std::span<const geometry::Box> bounds) {
  const auto a = sizes(one, bounds), b = sizes(other, bounds);
  return std::ranges::equal(a, b, [](const auto& x, const auto& y) {
    return std::ranges::equal(x, y, [](double p, double q) { return std::abs(p - q) < kLike_mm; });
  });
}

// A spline or a dowel: let into two parts that touch one another.
bool is_peg(work::PartId part, std::span<const work::Joint> joints) {
  Parts hosts;
  for (const work::Joint& joint : joints) {
    if (joint.host && joint.parts[1 - *joint.host] == part) {
      hosts.push_back(joint.parts[*joint.host]);
    }
  }
  return hosts.size() == 2 && std::ranges::any_of(joints, [&](const work::Joint& joint) {
           return both_in(joint, hosts);
         });
}

std::optional<LikeEnds> ends_across(std::size_t axis, std::span<const work::Joint> joints,
                                    std::span<const geometry::Box> bounds) {
  const LikeEnds ends{parts_at(axis, true, bounds), parts_at(axis, false, bounds)};
  for (const Parts& end : ends) {
    const auto pegs =
        std::ranges::count_if(end, [&](work::PartId part) { return is_peg(part, joints); });
    if (end.size() - static_cast<std::size_t>(pegs) < kLeastParts || !of_legs_and_rails(end, joints, bounds)) {
      return std::nullopt;
    }
    const auto size = size_of(end, bounds);
    if (size[axis] > kFlat * std::min(size[(axis + 1) % 3], size[(axis + 2) % 3])) {
      return std::nullopt;
    }
  }
  return alike(ends[0], ends[1], bounds) ? std::optional(ends) : std::nullopt;
}

}  // namespace

std::optional<LikeEnds> like_ends(std::span<const work::Joint> joints,
                                  std::span<const geometry::Box> bounds) {
  if (std::ranges::count_if(joints, &work::Joint::glued) <= static_cast<std::ptrdiff_t>(kAtOnce)) {
    return std::nullopt;
  }
  std::optional<LikeEnds> best;
  double shortest = 0;
  // Ends stand on the floor, a side each way along it.
  for (const std::size_t axis : {0U, 1U}) {
    if (auto ends = ends_across(axis, joints, bounds)) {
      const double rails = size_of(ends->front(), bounds)[1 - axis];
      if (!best || rails < shortest) {
        shortest = rails;
        best = std::move(ends);
      }
    }
  }
  return best;
}

}  // namespace planner::stage
