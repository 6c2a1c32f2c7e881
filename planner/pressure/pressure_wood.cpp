#include "planner/pressure/pressure_wood.h"

#include <array>
#include <cstddef>

namespace planner::pressure {
namespace {

// Averages over the rows of Wood Handbook Tables 5-1 (G_RT / E_L) and 5-2 (Poisson), from memory. A
// sheet's shear through the thickness is rolling shear both ways, as its class row has it.
struct AcrossGrain {
  double grt_over_el, nu_LR, nu_RT;
};

constexpr AcrossGrain across_grain(tables::WoodKind kind) {
  switch (kind) {
    case tables::WoodKind::hardwood:
      return {0.021, 0.37, 0.67};
    case tables::WoodKind::softwood:
      return {0.007, 0.35, 0.43};
    case tables::WoodKind::sheet:
      break;
  }
  return {0.07, 0.3, 0.05};
}

// E and G of the wood as a symmetric table over (L, R, T), and nu as ordered pairs.
struct AxisTable {
  std::array<double, 3> E;
  std::array<std::array<double, 3>, 3> G, nu;
};

AxisTable axis_table(const WoodStiffness& w) {
  AxisTable t{};
  t.E = {w.E_L_MPa, w.E_R_MPa, w.E_T_MPa};
  t.G[0][1] = t.G[1][0] = w.G_LR_MPa;
  t.G[0][2] = t.G[2][0] = w.G_LT_MPa;
  t.G[1][2] = t.G[2][1] = w.G_RT_MPa;
  const auto set_nu = [&t](std::size_t i, std::size_t j, double nu) {
    t.nu[i][j] = nu;
    t.nu[j][i] = nu * t.E[j] / t.E[i];  // symmetry of the compliances
  };
  set_nu(0, 1, w.nu_LR);
  set_nu(0, 2, w.nu_LT);
  set_nu(1, 2, w.nu_RT);
  return t;
}

}  // namespace

WoodStiffness stiffness_of(const tables::Wood& wood) {
  const tables::Elastic own = elastic_of(wood);
  const AcrossGrain across = across_grain(wood.kind);
  WoodStiffness w;
  w.E_L_MPa = own.e_length_MPa;
  w.E_R_MPa = own.e_thickness_MPa;
  w.E_T_MPa = own.e_width_MPa;
  w.G_LR_MPa = own.g_length_thickness_MPa;
  w.G_LT_MPa = own.g_length_width_MPa;
  w.G_RT_MPa = across.grt_over_el * own.e_length_MPa;
  w.nu_LR = across.nu_LR;
  w.nu_LT = own.poisson;
  w.nu_RT = across.nu_RT;
  return w;
}

LineModuli moduli_in(const WoodStiffness& wood, WoodOrientation orientation) {
  const AxisTable t = axis_table(wood);
  const auto x = static_cast<std::size_t>(orientation.x),
             y = static_cast<std::size_t>(orientation.y),
             z = static_cast<std::size_t>(orientation.z);
  return {t.E[x],    t.E[y],     t.E[z],     t.G[x][y], t.G[x][z],
          t.G[y][z], t.nu[x][y], t.nu[x][z], t.nu[y][z]};
}

}  // namespace planner::pressure
