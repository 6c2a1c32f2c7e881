// The elastic constants of wood that pressing a joint needs, in the axes of the line being pressed.
#pragma once
#include <optional>
#include <string>
#include <vector>

namespace planner {

// Moduli of one wood along the grain (L), along a growth ring's radius (R) and along the ring (T).
// Poisson ratio nu_ij: contraction along j for a unit stretch along i.
struct WoodStiffness {
  double E_L_MPa = 0, E_R_MPa = 0, E_T_MPa = 0;
  double G_LR_MPa = 0, G_LT_MPa = 0, G_RT_MPa = 0;
  double nu_LR = 0, nu_LT = 0, nu_RT = 0;
  double comp_perp_MPa = 0;  // compression perpendicular to grain at the proportional limit, mean
};

// A row of the wood table; what the table leaves blank is empty.
enum class WoodKind { hardwood, softwood, sheet };
struct WoodRow {
  WoodKind kind = WoodKind::hardwood;
  double moe_MPa = 0;           // static bending, 12 % moisture content
  double specific_gravity = 0;  // as the table gives it
  std::optional<double> et_over_el, er_over_el, glr_over_el, glt_over_el, comp_perp_MPa;
};

struct WoodEstimate {
  WoodStiffness stiffness;
  std::vector<std::string> assumed;  // the table's columns that were blank and took the class value
};

// Moduli from a table row. E_L = 1.1 MOE for solid wood (the bending test's shear deflection taken
// out: note to Wood Handbook Table 5-1), = MOE for sheets, whose test span leaves no such error.
// Blank ratios take the class rows of planner/tables/species.csv; the Poisson ratios and G_RT,
// which that table has not, are class averages of Wood Handbook Tables 5-1 and 5-2, from memory. A
// sheet is taken equally stiff both ways in its plane: T lies in the plane, R through the
// thickness. REQUIRES: moe_MPa > 0, and specific_gravity > 0 where comp_perp_MPa is empty.
WoodEstimate stiffness_of(const WoodRow& row);

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
inline constexpr WoodOrientation kBoardPressedOnEnd{WoodAxis::tangential, WoodAxis::radial,
                                                    WoodAxis::along};

// The same moduli in the axes of a line.
struct LineModuli {
  double E_x_MPa = 0, E_y_MPa = 0, E_z_MPa = 0;
  double G_xy_MPa = 0, G_xz_MPa = 0, G_yz_MPa = 0;
  double nu_xy = 0, nu_xz = 0, nu_yz = 0;
};
LineModuli moduli_in(const WoodStiffness& wood, WoodOrientation orientation);

}  // namespace planner
