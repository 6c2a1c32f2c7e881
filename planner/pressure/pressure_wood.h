// The elastic constants of wood that pressing a joint needs, in the axes of the line being pressed.
#pragma once
#include "planner/tables/wood.h"

namespace planner::pressure {

// Moduli of one wood along the grain (L), along a growth ring's radius (R) and along the ring (T).
// Poisson ratio nu_ij: contraction along j for a unit stretch along i.
struct WoodStiffness {
  double E_L_MPa = 0, E_R_MPa = 0, E_T_MPa = 0;
  double G_LR_MPa = 0, G_LT_MPa = 0, G_RT_MPa = 0;
  double nu_LR = 0, nu_LT = 0, nu_RT = 0;
};

// elastic_of() with what the wood table has not: G_RT and the Poisson ratios across the grain,
// class averages of Wood Handbook Tables 5-1 and 5-2, from memory. G_RT counts only where a panel
// bends across its grain, the ratios hardly at all. A sheet is equal both ways in its plane: L and
// T lie in it, R runs through the thickness.
WoodStiffness stiffness_of(const tables::Wood& wood);

enum class WoodAxis { along, radial, tangential };

// Which of the wood's axes lies along the glue line (x), across it in the joint's plane (y) and in
// the pressing direction (z). REQUIRES: the three differ.
struct WoodOrientation {
  WoodAxis x = WoodAxis::along, y = WoodAxis::radial, z = WoodAxis::tangential;
};

// Boards are taken flatsawn: width tangential, thickness radial.
inline constexpr WoodOrientation kBoardPressedOnEdge{WoodAxis::along, WoodAxis::radial,
                                                     WoodAxis::tangential};
inline constexpr WoodOrientation kPanelGrainAlongLine{WoodAxis::along, WoodAxis::tangential,
                                                      WoodAxis::radial};
inline constexpr WoodOrientation kPanelGrainAcrossLine{WoodAxis::tangential, WoodAxis::along,
                                                       WoodAxis::radial};

// The same moduli in the axes of a line.
struct LineModuli {
  double E_x_MPa = 0, E_y_MPa = 0, E_z_MPa = 0;
  double G_xy_MPa = 0, G_xz_MPa = 0, G_yz_MPa = 0;
  double nu_xy = 0, nu_xz = 0, nu_yz = 0;
  friend bool operator==(const LineModuli&, const LineModuli&) = default;
};
LineModuli moduli_in(const WoodStiffness& wood, WoodOrientation orientation);

}  // namespace planner::pressure
