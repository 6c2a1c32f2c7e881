#include "planner/pressure/pressure_plate.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include <doctest/doctest.h>

#include "planner/pressure/beam_table.h"
#include "planner/pressure/pressure_plate_element.h"

TEST_SUITE_BEGIN("planner/pressure_plate");

namespace planner::pressure {
namespace {

LineModuli flatsawn_oak() {
  const WoodStiffness oak{13750, 2117.5, 1127.5, 1223.75, 1113.75, 275, 0.35, 0.448, 0.56};
  return moduli_in(oak, kPanelGrainAlongLine);
}

// Middle deflection of a plate on four simple supports under even pressure, by the element.
double supported_plate_mm(const PlateSection& section, double a_mm, double b_mm, int cells,
                          double pressure_MPa) {
  const double dx = a_mm / cells, dy = b_mm / cells;
  const PlateMatrix k = plate_stiffness(section, dx, dy);
  const auto node = [cells](int i, int j) { return 3 * (j * (cells + 1) + i); };
  constexpr double kPin = 1e12;
  SpringSystem system;
  system.freedoms = 3 * (cells + 1) * (cells + 1);
  system.springs_hold = false;
  NodeLoads load;
  for (int j = 0; j < cells; ++j)
    for (int i = 0; i < cells; ++i) {
      const int corner[4] = {node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)};
      for (std::size_t r = 0; r < 12; ++r) {
        if (r % 3 == 0)
          load.push_back({corner[r / 3], pressure_MPa * dx * dy / 4});
        for (std::size_t c = 0; c < 12; ++c) {
          const int row = corner[r / 3] + static_cast<int>(r % 3);
          const int column = corner[c / 3] + static_cast<int>(c % 3);
          if (row >= column)
            system.fixed.push_back({row, column, k[r][c]});
        }
      }
    }
  for (int n = 0; n <= cells; ++n)
    for (const auto& [at, slope] :
         {std::pair{node(n, 0), 1}, {node(n, cells), 1}, {node(0, n), 2}, {node(cells, n), 2}})
      for (const int held : {at, at + slope})  // deflection, and slope along the support
        system.fixed.push_back({held, held, kPin});
  system.springs.push_back({node(cells / 2, cells / 2), kBase, 1, 0, 1});  // reads the middle
  system.fixed_load_N.assign(static_cast<std::size_t>(system.freedoms), 0);
  return ContactSolver(std::move(system)).influence_MPa(load).front();
}

// Navier's double series for a thin orthotropic plate (Timoshenko and Woinowsky-Krieger, Theory of
// Plates and Shells, 1959, section 85).
double navier_mm(const PlateSection& s, double a, double b, double pressure) {
  constexpr double pi = std::numbers::pi;
  double sum = 0;
  for (int m = 1; m < 60; m += 2)
    for (int n = 1; n < 60; n += 2) {
      const double x = m / a, y = n / b;
      const double stiffness = s.D_xx_Nmm * x * x * x * x +
                               2 * (s.D_xy_Nmm + 2 * s.D_twist_Nmm) * x * x * y * y +
                               s.D_yy_Nmm * y * y * y * y;
      const double sign = (m + n) / 2 % 2 == 1 ? 1 : -1;
      sum += sign * 16 * pressure / (std::pow(pi, 6) * m * n * stiffness);
    }
  return sum;
}

// Outside, closed form: Navier's series; Timoshenko and Woinowsky-Krieger (1959), section 85
TEST_CASE("Navier's series: thin oak and plain plates on four supports") {
  const PlateSection oak = plate_section(6, flatsawn_oak());
  CHECK(supported_plate_mm(oak, 600, 400, 32, 0.001) ==
        doctest::Approx(navier_mm(oak, 600, 400, 0.001)).epsilon(0.01));
  LineModuli plain;
  plain.E_x_MPa = plain.E_y_MPa = 10000;
  plain.nu_xy = 0.3;
  plain.G_xy_MPa = plain.G_xz_MPa = plain.G_yz_MPa = 10000 / 2.6;
  const PlateSection square = plate_section(4, plain);
  const double D = 10000 * 64.0 / 12 / (1 - 0.09);
  CHECK(supported_plate_mm(square, 400, 400, 32, 0.001) ==
        doctest::Approx(0.00406 * 0.001 * std::pow(400, 4) / D).epsilon(0.01));
}

TEST_CASE("a plate element moved as a rigid body feels nothing") {
  const PlateMatrix k = plate_stiffness(plate_section(19, flatsawn_oak()), 10, 8);
  const double corner_x[4] = {0, 10, 10, 0}, corner_y[4] = {0, 0, 8, 8};
  for (const auto& [lift, turn_x, turn_y] :
       {std::array{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}}) {
    std::array<double, 12> u{};
    for (std::size_t i = 0; i < 4; ++i) {
      u[3 * i] = lift + turn_x * corner_x[i] + turn_y * corner_y[i];
      u[3 * i + 1] = turn_x;
      u[3 * i + 2] = turn_y;
    }
    for (const auto& row : k) {
      double force = 0, size = 0;
      for (std::size_t c = 0; c < 12; ++c) {
        force += row[c] * u[c];
        size += std::abs(row[c] * u[c]);
      }
      CHECK(std::abs(force) <= 1e-12 * size);
    }
  }
}

FacePlate oak_face(double length_mm, double width_mm) {
  FacePlate plate;
  plate.length_mm = length_mm;
  plate.width_mm = width_mm;
  plate.thickness_mm = 19;
  plate.moduli = flatsawn_oak();
  return plate;
}

TEST_CASE("force in is force out over a face, with and without cauls") {
  FacePlate plate = oak_face(400, 120);
  const Caul caul{40, 40,
                  moduli_in({13750, 2117.5, 1127.5, 1223.75, 1113.75, 275, 0.35, 0.448, 0.56},
                            kBoardPressedOnEdge)};
  plate.cauls = {{CaulRun::crosswise, 100, caul}, {CaulRun::crosswise, 300, caul}};
  const FaceSystem system(plate);
  std::vector<FacePush> pushes{{kOnTheBoard, 200, 60, 30, 30, 1000}};
  for (const int c : {0, 1})
    for (const double y : {10.0, 110.0})
      pushes.push_back({c, 0, y, 30, 30, 1500});
  const ContactSolution pressed = system.press(pushes);
  REQUIRE(pressed.settled);
  const FaceProfile profile = profile_of(system.samples(), pressed);
  CHECK(std::abs(profile.force_N - 7000) < 7000 * 1e-9);
  for (std::size_t i = 0; i < pressed.gap_mm.size(); ++i)
    CHECK((pressed.gap_mm[i] == 0 || pressed.pressure_MPa[i] == 0));
}

// Cauls of so much camber stand off almost everywhere at first: which springs hold is found by many
// changes, and must be found all the same.
TEST_CASE("force in is force out under cauls whose camber barely closes") {
  FacePlate plate{600, 600, 9, flatsawn_oak(), 18, {}};
  const LineModuli offcut = moduli_in(
      {13750, 2117.5, 1127.5, 1223.75, 1113.75, 275, 0.35, 0.448, 0.56}, kBoardPressedOnEdge);
  std::vector<FacePush> pushes;
  for (int k = 0; k < 8; ++k) {
    const double x = 600 * (k + 0.5) / 8;
    plate.cauls.push_back({CaulRun::crosswise, x, {60, 38, offcut, 15}});
    for (const double y : {20.0, 580.0})
      pushes.push_back({k, x, y, 40, 40, 3000});
  }
  const FaceSystem system(plate);
  const ContactSolution pressed = system.press(pushes);
  CHECK(pressed.settled);
  CHECK(pressed.rounds < 60);
  CHECK(profile_of(system.samples(), pressed).force_N == doctest::Approx(48000).epsilon(1e-6));
}

TEST_CASE("a face pressed on its middle is its own mirror image") {
  const FaceSystem system(oak_face(300, 100));
  const ContactSolution pressed =
      system.press(std::vector<FacePush>{{kOnTheBoard, 150, 50, 40, 40, 2000}});
  const std::size_t last = system.samples().size() - 1;
  const double most = *std::max_element(pressed.pressure_MPa.begin(), pressed.pressure_MPa.end());
  for (std::size_t i = 0; i <= last; ++i)
    CHECK(std::abs(pressed.pressure_MPa[i] - pressed.pressure_MPa[last - i]) < 1e-6 * most);
}

TEST_CASE("cauls across a lamination leave less of it starved than bare jaws along its middle") {
  const WoodStiffness oak{13750, 2117.5, 1127.5, 1223.75, 1113.75, 275, 0.35, 0.448, 0.56};
  FacePlate bare = oak_face(600, 120), with_cauls = bare;
  std::vector<FacePush> jaws, on_cauls;
  for (int n = 0; n < 6; ++n) {
    const double x = 50 + 100 * n;
    jaws.push_back({kOnTheBoard, x, 60, 30, 30, 2000});
    with_cauls.cauls.push_back(
        {CaulRun::crosswise, x, {50, 50, moduli_in(oak, kBoardPressedOnEdge)}});
    for (const double y : {0.0, 120.0})
      on_cauls.push_back({n, 0, y, 30, 30, 1000});
  }
  const FaceSystem a(bare), b(with_cauls);
  CHECK(profile_of(b.samples(), b.press(on_cauls)).starved_share <
        profile_of(a.samples(), a.press(jaws)).starved_share - 0.1);
}

// The camber is the caul's deflection under the load spread along it, by Wood Handbook Table 9-1:
// so under that load the board beneath it is pressed evenly.
TEST_CASE(
    "a caul across a face, clamped at both ends, presses evenly with the camber for its load") {
  FacePlate plate = oak_face(80, 300);
  const Caul straight{80, 38,
                      moduli_in({13750, 2117.5, 1127.5, 1223.75, 1113.75, 275, 0.35, 0.448, 0.56},
                                kBoardPressedOnEdge)};
  constexpr double kLoad_N = 6000, kJaw_mm = 32;
  const double camber = caul_camber_mm(straight, 300 - kJaw_mm, kLoad_N);
  const auto evenness = [&](double camber_mm, double load_N) {
    plate.cauls = {{CaulRun::crosswise, 40, straight}};
    plate.cauls.front().section.camber_mm = camber_mm;
    const FaceSystem system(plate);
    const std::vector<FacePush> ends{{0, 40, kJaw_mm / 2, 32, kJaw_mm, load_N / 2},
                                     {0, 40, 300 - kJaw_mm / 2, 32, kJaw_mm, load_N / 2}};
    const FaceProfile p = profile_of(system.samples(), system.press(ends));
    CHECK(p.force_N == doctest::Approx(load_N).epsilon(1e-6));
    return p.min_MPa / p.mean_MPa;
  };
  CHECK(evenness(camber, kLoad_N) > 0.75);
  CHECK(evenness(0, kLoad_N) < 0.2);
  CHECK(evenness(2 * camber, kLoad_N) < 0.2);  // too much: the ends stand off
}

}  // namespace
}  // namespace planner::pressure

TEST_SUITE_END();
