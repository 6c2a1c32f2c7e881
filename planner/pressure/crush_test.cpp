#include "planner/pressure/crush.h"

#include <doctest/doctest.h>

TEST_SUITE_BEGIN("planner/crush");

namespace planner::pressure {
namespace {

// Outside, handbook: GTR-190 Table 5-3a and 5-3b: compression perpendicular to grain
TEST_CASE("half the compression perpendicular to grain: hard maple 10.1 MPa, white pine 3.0") {
  CHECK(bearing_limit_MPa(*tables::find_wood("hard_maple")) == doctest::Approx(5.05));
  CHECK(bearing_limit_MPa(*tables::find_wood("eastern_white_pine")) == doctest::Approx(1.5));
}

TEST_CASE("a pipe clamp's bare jaw is over half of what white pine bears, under all of it") {
  const double pressure = 4670.0 / (42 * 50);
  CHECK(pressure == doctest::Approx(2.2).epsilon(0.02));
  CHECK(pressure > bearing_limit_MPa(*tables::find_wood("eastern_white_pine")));
  CHECK(pressure < crush_strength_of(*tables::find_wood("eastern_white_pine")).MPa);
}

TEST_CASE("a C-clamp's 20 mm pad at 4500 N dents even hard maple") {
  CHECK(4500.0 / (20 * 20) > crush_strength_of(*tables::find_wood("hard_maple")).MPa);
}

PadQuestion cherry_wall() {
  PadQuestion q;
  q.force_N = 2000;
  q.limit_MPa = 2.4;
  q.jaw_along_mm = q.jaw_across_mm = 32;
  q.room_along_mm = 350;
  q.room_across_mm = 19;
  q.show_face = true;
  return q;
}

TEST_CASE("on a narrow edge the pad grows along it, and its thickness with it") {
  const PadQuestion q = cherry_wall();
  const auto answer = choose_pad(q);
  REQUIRE(answer);
  CHECK(answer->pad.across_mm == 19);  // all the wall gives
  CHECK(answer->pad.along_mm == 45);   // 833 mm2 / 19 = 43.9
  CHECK(answer->bearing_MPa <= q.limit_MPa);
  CHECK(answer->pad.thick_mm == 18);  // on a show face, 1/2 in or more
  CHECK(!answer->edge_caul);
}

TEST_CASE("an edge that gives just the area that is wanted serves") {
  PadQuestion q = cherry_wall();
  q.limit_MPa = 2;
  q.room_along_mm = 50;
  q.room_across_mm = 20;
  CHECK(choose_pad(q));  // 1000 mm2
  q.force_N = 2001;
  CHECK(!choose_pad(q));
}

TEST_CASE("in inches the same pad is cut to quarters from half-inch stock") {
  PadQuestion q = cherry_wall();
  q.units = base::Units::inch;
  const auto answer = choose_pad(q);
  REQUIRE(answer);
  CHECK(answer->pad.along_mm == doctest::Approx(44.45));
  CHECK(answer->pad.thick_mm == doctest::Approx(12.7));
}

TEST_CASE("a long pad gets stock thick enough to press its ends") {
  PadQuestion q = cherry_wall();
  q.force_N = 4000;  // 1667 mm2: 88 mm long
  const auto answer = choose_pad(q);
  REQUIRE(answer);
  CHECK(answer->pad.along_mm == 90);
  CHECK(answer->pad.thick_mm == 38);  // (90 - 32) / 2 = 29
}

TEST_CASE("too narrow an edge for any block takes an edge caul") {
  PadQuestion q = cherry_wall();
  q.force_N = 6000;  // 132 mm long
  const auto answer = choose_pad(q);
  REQUIRE(answer);
  CHECK(answer->edge_caul);
  CHECK(answer->bearing_MPa <= q.limit_MPa);
}

TEST_CASE("a wide face takes a square pad") {
  PadQuestion q = cherry_wall();
  q.room_across_mm = 300;
  q.force_N = 12000;  // 5000 mm2, more than four jaws' length at the jaw's width
  const auto answer = choose_pad(q);
  REQUIRE(answer);
  CHECK(answer->pad.across_mm == 75);
  CHECK(answer->pad.along_mm == 70);
  CHECK(!answer->edge_caul);
}

TEST_CASE("where the wood itself is too small for the force there is no pad") {
  PadQuestion q = cherry_wall();
  q.room_along_mm = 40;
  CHECK(!choose_pad(q));
}

}  // namespace
}  // namespace planner::pressure

TEST_SUITE_END();
