// Mitres: one face, pressed along two axes at once. Statics; 62 finite-element cases with friction
// agree (mitre_reference_test.cpp).
#pragma once
#include <span>

namespace planner::pressure {

// Friction of wood on wet glue that a mitre surely has: forces more than a fifth apart would slide
// it (ours).
inline constexpr double kWetFriction = 0.11;

// What presses a mitre's face, and what drives it along the face.
struct MitreForce {
  double normal_N = 0, shear_N = 0;
};

// Of two axes at right angles, the force along each that reaches the corner, squeezing it; `cos_one`,
// `cos_other`: of the face's normal along them. At 45 degrees (one + other) / sqrt 2 and their
// difference / sqrt 2.
MitreForce mitre_force(double one_N, double other_N, double cos_one, double cos_other);

// A bare mitre slides where the shear is more than friction takes.
bool slides(const MitreForce& force, double friction = kWetFriction);

// What of a strap's tension T presses each mitre of a ring that turns by `turn` there: bare on the
// arris T cos(turn / 2), under cauls notched to clear the arris T / cos(turn / 2).
double bare_strap_share(double turn);
double notched_strap_share(double turn);

// A bar of a rectangular frame: how far its middle stands from the centreline of the rail that it is
// to be in line with, and the length of the member that it stands on, less the member's width.
struct FrameBar {
  double off_mm = 0, run_mm = 0;
};

// Where the resultant across a mitre lies, 0 at the outer arris and 1 at the heel, of bars of one
// force each on the two members that meet there, `width_mm` wide; holds while nothing opens.
double mitre_resultant(std::span<const FrameBar> bars, double width_mm);

// A bar presses the whole mitre only so near its rail's centreline: beyond, the outside opens.
inline double mitre_reach_mm(double width_mm) { return width_mm / 3; }

}  // namespace planner::pressure
