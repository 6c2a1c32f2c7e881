// The four-node rectangular plate element that shears: bilinear deflection and rotations, shear
// strains tied to the edges' middles, so that it neither locks when thin nor wrinkles where nothing
// holds it. Bathe and Dvorkin, International Journal for Numerical Methods in Engineering 21
// (1985), from memory; checked against Navier's series in the tests.
#pragma once
#include <array>

#include "planner/pressure/pressure_wood.h"

namespace planner::pressure {

struct PlateSection {
  double D_xx_Nmm = 0, D_yy_Nmm = 0, D_xy_Nmm = 0,
         D_twist_Nmm = 0;             // D_xy couples the two bendings
  double S_x_N_mm = 0, S_y_N_mm = 0;  // kappa G t, kappa = 5/6
};
PlateSection plate_section(double thickness_mm, const LineModuli& moduli);

// Over (w, beta_x, beta_y) of the corners (0,0), (a,0), (a,b), (0,b); beta the section's slopes.
using PlateMatrix = std::array<std::array<double, 12>, 12>;
PlateMatrix plate_stiffness(const PlateSection& section, double a_mm, double b_mm);

}  // namespace planner::pressure
