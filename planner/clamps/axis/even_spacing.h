// Clamps at equal spacings along a line, the outer ones near its ends.
#pragma once

namespace planner::clamps::axis {

// A board's ends lose pressure first, so the outer clamps stand 0.45 of the spacing from them
// (docs/clamping.md). One alone stands in the middle.
struct EvenSpacing {
  double apart_mm, from_end_mm;
  EvenSpacing(double length_mm, int clamps)
      : apart_mm(length_mm / (clamps - 1 + 2 * kEnd)), from_end_mm(kEnd * apart_mm) {}

  // Where the clamp stands along the line; the first is number 0.
  double at_mm(int clamp) const { return apart_mm * (kEnd + clamp); }

 private:
  static constexpr double kEnd = 0.45;
};

}  // namespace planner::clamps::axis
