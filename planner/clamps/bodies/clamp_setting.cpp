#include "planner/clamps/bodies/clamp_setting.h"

#include <algorithm>
#include <array>
#include <utility>

namespace planner::clamps::bodies {
namespace {

using geometry::Box;
using geometry::Direction;

using Body = std::array<Box, 3>;

constexpr double kFrom_mm = 5000;  // so far off a clamp is free of the work and of all others

// What a body passes through on its way from afar.
Body swept(Body body, const Direction& from) {
  const auto reach = [](double& lo, double& hi, double way) {
    (way > 0 ? hi : lo) += kFrom_mm * way;
  };
  for (Box& box : body) {
    reach(box.lo.x, box.hi.x, from.x);
    reach(box.lo.y, box.hi.y, from.y);
    reach(box.lo.z, box.hi.z, from.z);
  }
  return body;
}

// The clamp turned about its bar, its jaws aside: so it can be pushed through lengthwise.
Body turned(const StandingClamp& c, const Direction& side, const Direction& aside) {
  const double middle = c.throat_mm + c.kind->bar_depth_mm / 2;
  StandingClamp laid = c;
  laid.low = c.low + middle * side + (-middle) * aside;
  Body body = body_of(laid, aside);
  body[0] = body_of(c, side)[0];
  return body;
}

std::vector<Body> ways_to(const StandingClamp& c, const Direction& side) {
  const Direction sideways = cross(c.axis, side);
  std::vector<Body> ways;
  for (const Direction& from : {side, sideways, -sideways}) {
    ways.push_back(swept(body_of(c, side), from));
  }
  for (const Direction& from : {c.axis, -c.axis}) {
    for (const Direction& aside : {sideways, -sideways}) {
      ways.push_back(swept(turned(c, side, aside), from));
    }
  }
  return ways;
}

}  // namespace

ClampWays::ClampWays(std::span<const StandingClamp> clamps, std::span<const Direction> sides) {
  std::vector<std::optional<Body>> stands;
  for (std::size_t i = 0; i < clamps.size(); ++i) {
    const bool bar = geometry::length(sides[i]) > 0.5;
    stands.push_back(bar ? std::optional(body_of(clamps[i], sides[i])) : std::nullopt);
  }
  in_way_.resize(clamps.size());
  for (std::size_t i = 0; i < clamps.size(); ++i) {
    if (!stands[i]) {
      continue;
    }
    for (const Body& way : ways_to(clamps[i], sides[i])) {
      ClampIds met;
      for (std::size_t j = 0; j < clamps.size(); ++j) {
        if (j != i && stands[j] && bodies_clash(way, *stands[j]) &&
            !bodies_clash(*stands[i], *stands[j])) {
          met.push_back(j);
        }
      }
      in_way_[i].push_back(std::move(met));
    }
  }
}

std::optional<std::size_t> ClampWays::behind(std::size_t clamp,
                                             const std::vector<char>& there) const {
  std::optional<std::size_t> first;
  for (const ClampIds& met : in_way_[clamp]) {
    const auto hit =
        std::find_if(met.begin(), met.end(), [&](std::size_t j) { return there[j] != 0; });
    if (hit == met.end()) {
      return std::nullopt;
    }
    first = first ? first : *hit;
  }
  return first;
}

namespace {

struct Backwards {
  std::vector<ClampIds> rounds;
  std::vector<Hemmed> hemmed;
};

// From the last: of those that the others leave a way to, the last goes on last. To take one off
// only frees the others, so that none is hemmed in where any order serves.
Backwards backwards(const ClampWays& ways, std::span<const ClampIds> rounds) {
  Backwards out{{rounds.begin(), rounds.end()}, {}};
  std::vector<char> there(ways.size(), 0);
  for (const ClampIds& round : rounds) {
    for (const std::size_t clamp : round) {
      there[clamp] = 1;
    }
  }
  for (std::size_t r = rounds.size(); r-- > 0;) {
    ClampIds left = rounds[r];
    for (std::size_t place = left.size(); place-- > 0;) {
      const auto free = std::find_if(left.rbegin(), left.rend(),
                                     [&](std::size_t clamp) { return !ways.behind(clamp, there); });
      const auto last = free == left.rend() ? std::prev(left.end()) : std::prev(free.base());
      if (free == left.rend()) {
        out.hemmed.push_back({*last, *ways.behind(*last, there)});
      }
      out.rounds[r][place] = *last;
      there[*last] = 0;
      left.erase(last);
    }
  }
  return out;
}

ClampIds one_after_the_other(std::span<const ClampIds> rounds) {
  ClampIds all;
  for (const ClampIds& round : rounds) {
    all.insert(all.end(), round.begin(), round.end());
  }
  return all;
}

std::vector<std::size_t> place_in(const ClampIds& order, std::size_t clamps) {
  std::vector<std::size_t> place(clamps, 0);
  for (std::size_t p = 0; p < order.size(); ++p) {
    place[order[p]] = p;
  }
  return place;
}

}  // namespace

SettingOrder setting_order(const ClampWays& ways, std::span<const ClampIds> rounds) {
  SettingOrder out;
  out.laid_before.assign(ways.size(), std::nullopt);
  Backwards kept = backwards(ways, rounds);
  out.rounds = std::move(kept.rounds);
  if (kept.hemmed.empty()) {
    return out;
  }
  const ClampIds all = one_after_the_other(rounds);
  const Backwards free = backwards(ways, {&all, 1});
  out.hemmed = free.hemmed;
  const ClampIds& laid = free.rounds.front();
  const std::vector<std::size_t> place = place_in(laid, ways.size());
  for (ClampIds& round : out.rounds) {
    std::sort(round.begin(), round.end(),
              [&](std::size_t a, std::size_t b) { return place[a] < place[b]; });
  }
  const std::vector<std::size_t> number = place_in(one_after_the_other(out.rounds), ways.size());
  for (std::size_t p = 0; p < laid.size(); ++p) {
    const auto later = std::find_if(laid.begin() + static_cast<std::ptrdiff_t>(p), laid.end(),
                                    [&](std::size_t c) { return number[c] < number[laid[p]]; });
    if (later != laid.end()) {
      out.laid_before[laid[p]] = *later;
    }
  }
  return out;
}

std::vector<EarlierRound> earlier_rounds(const ClampWays& ways, std::span<const ClampIds> rounds) {
  const auto hemmed = [&](std::span<const ClampIds> order) {
    return backwards(ways, order).hemmed.size();
  };
  const std::size_t now = hemmed(rounds);
  std::vector<EarlierRound> out;
  for (std::size_t from = 1; now > 0 && from < rounds.size(); ++from) {
    for (std::size_t to = from; to-- > 0;) {
      std::vector<ClampIds> moved(rounds.begin(), rounds.end());
      const auto first = moved.begin() + static_cast<std::ptrdiff_t>(to);
      std::rotate(first, moved.begin() + static_cast<std::ptrdiff_t>(from),
                  moved.begin() + static_cast<std::ptrdiff_t>(from) + 1);
      if (const std::size_t then = hemmed(moved); then < now) {
        out.push_back({from, to, then});
      }
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const EarlierRound& x, const EarlierRound& y) {
    return x.hemmed != y.hemmed ? x.hemmed < y.hemmed : x.round - x.before < y.round - y.before;
  });
  return out;
}

}  // namespace planner::clamps::bodies
