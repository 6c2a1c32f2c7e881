// The two-node Timoshenko beam element, exact at its nodes for loads at nodes; its shape functions
// carry the shear, so it does not lock. Przemieniecki, Theory of Matrix Structural Analysis (1968),
// 5.6, from memory; checked against Wood Handbook Table 9-1 in the tests.
#pragma once
#include <array>
#include <limits>

namespace planner::pressure {

// A beam, prismatic.
struct BeamLayer {
  double bending_Nmm2 = 0;                                   // E I
  double shear_N = std::numeric_limits<double>::infinity();  // kappa G A
  friend bool operator==(const BeamLayer&, const BeamLayer&) = default;
};

// Over (w1, theta1, w2, theta2).
using BeamVector = std::array<double, 4>;
using BeamMatrix = std::array<BeamVector, 4>;

// 12 E I / (kappa G A l^2): how much of the element's flexibility is shear.
double shear_ratio(const BeamLayer& layer, double length_mm);

BeamMatrix beam_stiffness(const BeamLayer& layer, double length_mm);

// The same times `displacement`, by way of the end rotations against the chord: a rigid motion
// gives exactly nothing and the two end forces are exactly opposite, where the matrix leaves
// rounding of the size of its largest entry.
BeamVector beam_forces(const BeamLayer& layer, double length_mm, const BeamVector& displacement);

// Deflection at `at` in [0, 1] of the element under unit nodal displacements.
BeamVector beam_shape(const BeamLayer& layer, double length_mm, double at);

// 1 / beta of a layer on springs, the length over which it spreads a force (Hetenyi 1946).
double spread_length_mm(const BeamLayer& layer, double stiffness_MPa);

}  // namespace planner::pressure
