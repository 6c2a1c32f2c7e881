#include "planner/pressure_wood.h"

#include <doctest/doctest.h>

TEST_SUITE_BEGIN("planner/pressure_wood");

namespace planner {
namespace {

TEST_CASE("a full row gives its own moduli: hard maple, E_L = 1.1 MOE (Wood Handbook Table 5-1)") {
  const WoodEstimate maple =
      stiffness_of({WoodKind::hardwood, 12600, 0.63, 0.065, 0.132, 0.111, 0.063, 10.1});
  CHECK(maple.assumed.empty());
  CHECK(maple.stiffness.E_L_MPa == doctest::Approx(13860));
  CHECK(maple.stiffness.E_T_MPa == doctest::Approx(0.065 * 13860));
  CHECK(maple.stiffness.G_LR_MPa == doctest::Approx(1538).epsilon(1e-3));
  CHECK(maple.stiffness.comp_perp_MPa == 10.1);
}

TEST_CASE("a blank row takes its class and says which values") {
  const WoodEstimate beech = stiffness_of({WoodKind::hardwood, 11900, 0.64, {}, {}, {}, {}, 7.0});
  CHECK(beech.assumed ==
        std::vector<std::string>{"et_over_el", "er_over_el", "glr_over_el", "glt_over_el"});
  CHECK(beech.stiffness.E_T_MPa == doctest::Approx(0.061 * 1.1 * 11900));
  const WoodEstimate teak = stiffness_of({WoodKind::hardwood, 10700, 0.55, {}, {}, {}, {}, {}});
  CHECK(teak.assumed.back() == "comp_perp_mpa");
  CHECK(teak.stiffness.comp_perp_MPa == doctest::Approx(6.19).epsilon(1e-3));  // 21.6 * 0.55^2.09
}

TEST_CASE("a sheet is as stiff across as along, and soft through its thickness") {
  const WoodEstimate ply = stiffness_of({WoodKind::sheet, 9000, 0.68, {}, {}, {}, {}, {}});
  CHECK(ply.stiffness.E_T_MPa == ply.stiffness.E_L_MPa);
  CHECK(ply.stiffness.E_L_MPa == 9000);
  CHECK(ply.stiffness.E_R_MPa == doctest::Approx(450));
}

TEST_CASE("a board pressed on its edge bends along the grain and yields tangentially") {
  const WoodStiffness oak{13750, 2117.5, 1127.5, 1223.75, 1113.75, 275, 0.35, 0.448, 0.56, 7};
  const LineModuli edge = moduli_in(oak, kBoardPressedOnEdge);
  CHECK(edge.E_x_MPa == 13750);
  CHECK(edge.E_z_MPa == 1127.5);
  CHECK(edge.G_xz_MPa == 1113.75);
  CHECK(edge.nu_xz == 0.448);
  const LineModuli across = moduli_in(oak, kPanelGrainAcrossLine);
  CHECK(across.E_x_MPa == 1127.5);
  CHECK(across.E_y_MPa == 13750);
  CHECK(across.G_xz_MPa == 275);
  // Compliances are symmetric: nu_TR / E_T = nu_RT / E_R.
  CHECK(across.nu_xz / across.E_x_MPa == doctest::Approx(0.56 / 2117.5));
}

}  // namespace
}  // namespace planner

TEST_SUITE_END();
