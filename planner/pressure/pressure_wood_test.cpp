#include "planner/pressure/pressure_wood.h"

#include <doctest/doctest.h>

TEST_SUITE_BEGIN("planner/pressure_wood");

namespace planner::pressure {
namespace {

// Outside, handbook: GTR-282 Table 5-1
TEST_CASE(
    "hard maple: E_L = 1.1 MOE (Wood Handbook Table 5-1), thickness radial, width tangential") {
  const WoodStiffness maple = stiffness_of(*tables::find_wood("hard_maple"));
  CHECK(maple.E_L_MPa == doctest::Approx(13860));
  CHECK(maple.E_T_MPa == doctest::Approx(0.065 * 13860));
  CHECK(maple.E_R_MPa == doctest::Approx(0.132 * 13860));
  CHECK(maple.G_LR_MPa == doctest::Approx(0.111 * 13860));
  CHECK(maple.G_LT_MPa == doctest::Approx(0.063 * 13860));
  CHECK(maple.G_RT_MPa < maple.G_LT_MPa);  // rolling shear is the softest
}

TEST_CASE("a sheet is as stiff across as along, and soft through its thickness") {
  const WoodStiffness ply = stiffness_of(*tables::find_wood("plywood_birch"));
  CHECK(ply.E_T_MPa == ply.E_L_MPa);
  CHECK(ply.E_R_MPa == doctest::Approx(0.05 * ply.E_L_MPa));
}

// Outside, closed form: orthotropic compliances are symmetric: nu_TR / E_T = nu_RT / E_R
TEST_CASE("a board pressed on its edge bends along the grain and yields tangentially") {
  const WoodStiffness oak{13750, 2117.5, 1127.5, 1223.75, 1113.75, 275, 0.35, 0.448, 0.56};
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
}  // namespace planner::pressure

TEST_SUITE_END();
