// Forces beside the middle: what they do to the pressure across a glue line, to a panel's flatness
// and to a frame's corners, and what to change.
#pragma once
#include <cstddef>
#include <span>
#include <vector>

namespace planner::pressure {

// A clamp's force and how far its line of action lies from the middle of what it presses, across
// the line or in its thickness; the sign tells the side.
struct OffsetForce {
  double force_N = 0, offset_mm = 0;
};

// Where the resultant lies. REQUIRES: forces >= 0, one of them > 0.
double resultant_offset_mm(std::span<const OffsetForce> forces);

// The middle third: within a sixth of the width from the middle the whole line is pressed; beyond,
// one edge opens; beyond a third, less than half of the width is in contact. Textbook statics; the
// third as a limit is ours.
enum class OffsetVerdict { good, edge_opens, too_far };
OffsetVerdict judge_offset(double offset_mm, double width_mm);

// Pressure across a rigid line under one force beside its middle, that cannot pull.
struct EdgePressures {
  double near_MPa = 0, far_MPa = 0;  // at the edge on the force's side, and at the other
  double contact_mm = 0;             // of the width
};
// REQUIRES: sizes > 0; |offset| < width / 2.
EdgePressures pressure_across(double force_N, double length_mm, double width_mm, double offset_mm);

// What mends an offset: change the clamps named to the other side of the work; if that is not
// enough, shift all by `shift_mm` besides.
struct OffsetRemedy {
  std::vector<std::size_t> swap;  // indices, ascending; the fewest that do, found greedily
  double shift_mm = 0;            // 0 when swapping is enough
};
// Empty and 0 where the resultant is already within a sixth of `width_mm`.
OffsetRemedy mend_offset(std::span<const OffsetForce> forces, double width_mm);

// A clamp across a frame or box whose two jaws don't stand opposite one another: where each stands
// along its own side.
struct SlantedForce {
  double force_N = 0, low_mm = 0, high_mm = 0;
};

// The moment that pulls the frame out of square, positive when it drives the high side towards
// larger x; zero for clamps square to the frame.
double racking_moment_Nmm(std::span<const SlantedForce> forces);

// How far to move all heads on the high side, and in which sense, to bring that moment to nothing.
double head_shift_mm(std::span<const SlantedForce> forces);

}  // namespace planner::pressure
