#include "planner/pressure/pressure_beam.h"

#include <cmath>

#include <doctest/doctest.h>

TEST_SUITE_BEGIN("planner/pressure_beam");

namespace planner::pressure {
namespace {

// Hard maple 40 x 60, grain along: E = 13860, G = 1538 MPa, A' = 5bh/6.
const BeamLayer kMapleCaul{13860.0 * 720000, 1538.0 * 5 * 40 * 60 / 6};

// Outside, handbook: GTR-190 Table 9-1: end force on a cantilever, bending 1/3 and shear 1
TEST_CASE("Wood Handbook Table 9-1: a cantilever under an end force bends by 1/3 and shears by 1") {
  const double length = 300, force = 1000;
  const BeamMatrix k = beam_stiffness(kMapleCaul, length);
  // End 1 held: solve the lower 2 x 2 block for a force on w2.
  const double det = k[2][2] * k[3][3] - k[2][3] * k[3][2];
  const double tip = force * k[3][3] / det;
  const double table = force * std::pow(length, 3) / (3 * kMapleCaul.bending_Nmm2) +
                       force * length / kMapleCaul.shear_N;
  CHECK(tip == doctest::Approx(table).epsilon(1e-12));
}

// Outside, handbook: GTR-190 Table 9-1: midspan force on two supports
TEST_CASE("Wood Handbook Table 9-1: a maple caul on two supports under a midspan force") {
  // Half of it by symmetry: a cantilever of half the span under half the force.
  const BeamMatrix k = beam_stiffness(kMapleCaul, 300);
  const double det = k[2][2] * k[3][3] - k[2][3] * k[3][2];
  CHECK(1500 * k[3][3] / det == doctest::Approx(1.3528 + 0.1463).epsilon(1e-4));
}

TEST_CASE("a rigid motion costs nothing and its shape is straight") {
  const BeamMatrix k = beam_stiffness(kMapleCaul, 80);
  const BeamVector lift{1, 0, 1, 0}, turn{0, 0.01, 0.8, 0.01};
  for (const BeamVector& motion : {lift, turn})
    for (std::size_t r = 0; r < 4; ++r) {
      double force = 0, size = 0;
      for (std::size_t c = 0; c < 4; ++c) {
        force += k[r][c] * motion[c];
        size += std::abs(k[r][c] * motion[c]);
      }
      CHECK(std::abs(force) < 1e-12 * size);
    }
  for (const double s : {0.0, 0.3, 1.0}) {
    const BeamVector n = beam_shape(kMapleCaul, 80, s);
    CHECK(n[0] + n[2] == doctest::Approx(1));
    CHECK(0.01 * n[1] + 0.8 * n[2] + 0.01 * n[3] == doctest::Approx(0.8 * s));
  }
}

}  // namespace
}  // namespace planner::pressure

TEST_SUITE_END();
