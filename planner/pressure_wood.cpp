#include "planner/pressure_wood.h"

#include <array>
#include <cmath>
#include <utility>

namespace planner {
namespace {

// What a blank takes. The first five are the class rows of tables/species.csv; the rest are
// averages over the rows of Wood Handbook Tables 5-1 (G_RT) and 5-2 (Poisson ratios), from memory.
struct ClassValues {
  double et_over_el, er_over_el, glr_over_el, glt_over_el, grt_over_el;
  double nu_LR, nu_LT, nu_RT;
};

constexpr ClassValues kHardwood{0.061, 0.122, 0.093, 0.070, 0.021, 0.37, 0.45, 0.67};
constexpr ClassValues kSoftwood{0.058, 0.090, 0.075, 0.071, 0.007, 0.35, 0.37, 0.43};
// Sheets: through the thickness 0.05 (chosen low), in the plane equal both ways; no Poisson ratio
// is published for them, and 0.1 or 0.3 makes no difference to a strip.
constexpr ClassValues kSheet{1.0, 0.05, 0.07, 0.07, 0.07, 0.3, 0.1, 0.05};
constexpr double kSheetCompPerp_MPa = 3.0;

constexpr const ClassValues& class_values(WoodKind kind) {
  switch (kind) {
    case WoodKind::hardwood:
      return kHardwood;
    case WoodKind::softwood:
      return kSoftwood;
    case WoodKind::sheet:
      break;
  }
  return kSheet;
}

// Wood Handbook regressions of compression perpendicular to grain on specific gravity (Table
// 5-11a), from memory.
double class_comp_perp_MPa(WoodKind kind, double specific_gravity) {
  switch (kind) {
    case WoodKind::hardwood:
      return 21.6 * std::pow(specific_gravity, 2.09);
    case WoodKind::softwood:
      return 16.5 * std::pow(specific_gravity, 1.57);
    case WoodKind::sheet:
      break;
  }
  return kSheetCompPerp_MPa;
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

WoodEstimate stiffness_of(const WoodRow& row) {
  const ClassValues& blank = class_values(row.kind);
  WoodEstimate out;
  const auto ratio = [&out](const std::optional<double>& value, double otherwise,
                            const char* column) {
    if (!value)
      out.assumed.emplace_back(column);
    return value.value_or(otherwise);
  };
  WoodStiffness& w = out.stiffness;
  w.E_L_MPa = row.kind == WoodKind::sheet ? row.moe_MPa : 1.1 * row.moe_MPa;
  w.E_T_MPa = w.E_L_MPa * ratio(row.et_over_el, blank.et_over_el, "et_over_el");
  w.E_R_MPa = w.E_L_MPa * ratio(row.er_over_el, blank.er_over_el, "er_over_el");
  w.G_LR_MPa = w.E_L_MPa * ratio(row.glr_over_el, blank.glr_over_el, "glr_over_el");
  w.G_LT_MPa = w.E_L_MPa * ratio(row.glt_over_el, blank.glt_over_el, "glt_over_el");
  w.G_RT_MPa = w.E_L_MPa * blank.grt_over_el;
  w.nu_LR = blank.nu_LR;
  w.nu_LT = blank.nu_LT;
  w.nu_RT = blank.nu_RT;
  if (!row.comp_perp_MPa)
    out.assumed.emplace_back("comp_perp_mpa");
  w.comp_perp_MPa = row.comp_perp_MPa.value_or(class_comp_perp_MPa(row.kind, row.specific_gravity));
  return out;
}

LineModuli moduli_in(const WoodStiffness& wood, WoodOrientation orientation) {
  const AxisTable t = axis_table(wood);
  const auto x = static_cast<std::size_t>(orientation.x),
             y = static_cast<std::size_t>(orientation.y),
             z = static_cast<std::size_t>(orientation.z);
  return {t.E[x],    t.E[y],     t.E[z],     t.G[x][y], t.G[x][z],
          t.G[y][z], t.nu[x][y], t.nu[x][z], t.nu[y][z]};
}

}  // namespace planner
