#include "cli/pictures/stance.h"

#include <cmath>
#include <numbers>

#include "geometry/elementary.h"

namespace cli::pictures {

using geometry::Direction;

Stance stance_on(planner::work::Face down) {
  const Direction side = geometry::kAxis[down.axis];
  const Direction up = down.positive ? -side : side;
  if (down.axis == 0) {
    const Direction away{0, 1, 0};
    return {cross(away, up), away, up};
  }
  const Direction right{1, 0, 0};
  return {right, cross(up, right), up};
}

std::vector<Stance> stances_from(const Stance& first) {
  std::vector<Stance> all;
  for (const Direction& up : {first.up, -first.up, first.away, -first.away, first.right, -first.right}) {
    for (const Direction& right :
         {first.right, -first.right, first.away, -first.away, first.up, -first.up}) {
      if (std::abs(dot(up, right)) < 0.5) {
        all.push_back({right, cross(up, right), up});
      }
    }
  }
  return all;
}

std::array<Stance, 4> turned_about(const Stance& stance) {
  return {stance,
          {stance.away, -stance.right, stance.up},
          {-stance.away, stance.right, stance.up},
          {-stance.right, -stance.away, stance.up}};
}

model::View bench_view(const Stance& stance) {
  constexpr double kSide = 30 * std::numbers::pi / 180, kAbove = 32 * std::numbers::pi / 180;
  const auto in_work = [&](double right, double away, double up) {
    return right * stance.right + away * stance.away + up * stance.up;
  };
  const double above = geometry::sine(kAbove), level = geometry::cosine(kAbove);
  const double aside = geometry::sine(kSide), ahead = geometry::cosine(kSide);
  const Direction eye = in_work(level * aside, -level * ahead, above);
  const Direction right = in_work(ahead, aside, 0);
  return {right, cross(eye, right), eye};
}

}  // namespace cli::pictures
