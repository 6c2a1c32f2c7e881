#include "planner/clamps/axis/shaped_pads.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

namespace planner::clamps::axis {
namespace {

double tan_of(double degrees) {
  return std::tan(degrees * std::numbers::pi / 180);
}

// A board of 600 x 100 mm whose front edge runs in towards its right end by `degrees`, glued to one
// of 600 x 120 mm behind it.
layout::TestWork tapered(double degrees, int thickness_mm) {
  const std::string thick = "thickness = " + std::to_string(thickness_mm) + "\n";
  return layout::work_of_text(
      "title = 'tapered'\nunits = 'mm'\nspecies = 'black_cherry'\n"
      "[[part]]\nname = 'back'\nlength = 600\nwidth = 120\n" +
      thick +
      "along = 'x'\nface = 'z'\nat = [0, 0, 0]\n"
      "[[part]]\nname = 'front'\nlength = 600\nwidth = 300\n" +
      thick +
      "along = 'x'\nface = 'z'\nat = [0, -300, 0]\n"
      "[[part.cut]]\nkind = 'mitre'\nside = '-y'\nlong = '-x'\nangle = " +
      std::to_string(degrees) + "\n[glue]\nuse = 'pva_type2'\n");
}

// Two sides that lean out by 10 degrees, glued to a floor 20 mm thick between them.
layout::TestWork splayed() {
  std::string text =
      "title = 'trough'\nunits = 'mm'\nspecies = 'black_cherry'\n"
      "[[part]]\nname = 'floor'\nlength = 300\nwidth = 200\nthickness = 20\n"
      "along = 'y'\nface = 'z'\nat = [0, 0, 0]\n";
  for (const char* side : {"-x", "+x"}) {
    text += std::string("[[part.cut]]\nkind = 'mitre'\nside = '") + side +
            "'\nlong = '+z'\nangle = 10\n";
  }
  for (const bool left : {true, false}) {
    text += std::string("[[part]]\nname = '") + (left ? "left" : "right") +
            "'\nlength = 300\nwidth = 120\nthickness = 18\nalong = 'y'\nface = 'x'\nat = [" +
            (left ? "-18" : "200") +
            ", 0, 0]\nturn = { axis = 'y', angle = " + (left ? "-10" : "10") + ", about = [" +
            (left ? "0" : "200") + ", 0, 20] }\n";
  }
  return layout::work_of_text(text + "[glue]\nuse = 'pva_type2'\n");
}

std::vector<plan::PlannedClamp> clamps_of(const layout::TestWork& work) {
  const work::Shop shop;
  const Planned planned = make_plan(work.job, shop, {});
  REQUIRE(planned.plan);
  for (const std::string& violation : verify::verify_plan(work.job, shop, *planned.plan)) {
    FAIL_CHECK(violation);
  }
  return planned.plan->stages.front().clamps;
}

}  // namespace

TEST_SUITE("planner/shaped_pads") {
  TEST_CASE("blocks on a tapered edge are sawn to it: thicker by their length x tan 5 degrees") {
    const std::vector<plan::PlannedClamp> clamps = clamps_of(tapered(5, 20));
    REQUIRE(!clamps.empty());
    for (const plan::PlannedClamp& clamp : clamps) {
      REQUIRE(!clamp.caul);
      const plan::Wedge& front = clamp.wedge[0];
      CHECK(front.angle_deg == doctest::Approx(5));
      CHECK(front.thin_mm == doctest::Approx(clamp.pad.thick_mm));
      CHECK(front.thick_mm - front.thin_mm ==
            doctest::Approx(clamp.pad.along_mm * tan_of(5)).epsilon(1e-6));
      CHECK(front.rises.x == doctest::Approx(1));  // the board narrows towards the right
      CHECK(clamp.wedge[1].angle_deg == 0);
      // The opening counts the block at its middle, under the screw.
      const double middle = (front.thin_mm + front.thick_mm) / 2;
      CHECK(clamp.opening_mm ==
            doctest::Approx(clamp.span_mm + middle + clamp.pad.thick_mm + 12.7));
      CHECK(clamp.span_mm == doctest::Approx(420 - clamp.at.x * tan_of(5)).epsilon(1e-6));
    }
  }
  TEST_CASE("a caul along a thin tapered edge makes the work parallel: every clamp opens as far") {
    const std::vector<plan::PlannedClamp> clamps = clamps_of(tapered(5, 10));
    REQUIRE(clamps.size() >= 2);
    for (const plan::PlannedClamp& clamp : clamps) {
      REQUIRE(clamp.caul);
      const plan::Wedge& front = clamp.wedge[0];
      CHECK(front.thick_mm - front.thin_mm == doctest::Approx(600 * tan_of(5)).epsilon(1e-6));
      CHECK(clamp.opening_mm == doctest::Approx(clamps.front().opening_mm).epsilon(1e-6));
    }
  }
  TEST_CASE("sides that lean apart are pressed across on a shaped caul each") {
    const std::vector<plan::PlannedClamp> clamps = clamps_of(splayed());
    REQUIRE(clamps.size() >= 2);
    for (const plan::PlannedClamp& clamp : clamps) {
      CHECK(clamp.axis.x == doctest::Approx(1));
      CHECK(clamp.joints.size() == 2);
      for (const plan::Wedge& wedge : clamp.wedge) {
        CHECK(wedge.angle_deg == doctest::Approx(10));
        CHECK(wedge.rises.z == doctest::Approx(-1));  // the sides lean out: thick at the bottom
        const double high = clamp.caul ? clamp.caul->across_mm : clamp.pad.across_mm;
        CHECK(wedge.thick_mm - wedge.thin_mm == doctest::Approx(high * tan_of(10)).epsilon(1e-6));
      }
    }
  }
  TEST_CASE("a plan that forgets the shape is found out") {
    const layout::TestWork work = tapered(5, 20);
    Planned planned = make_plan(work.job, work::Shop{}, {});
    REQUIRE(planned.plan);
    planned.plan->stages.front().clamps.front().wedge = {};
    const auto violations = verify::verify_plan(work.job, work::Shop{}, *planned.plan);
    CHECK(std::any_of(violations.begin(), violations.end(), [](const std::string& v) {
      return v.find("bears on a face that slopes by 0.087") != std::string::npos;
    }));
  }
  // Dry wood on wood holds to 0.3: 16.7 degrees.
  TEST_CASE("on a face steeper than friction holds no clamp is set") {
    CHECK(!clamps_of(tapered(16, 20)).empty());
    CHECK(clamps_of(tapered(17.5, 20)).empty());
  }
  TEST_CASE("square faces want nothing shaped") {
    const layout::TestWork chest = layout::hive_tool_chest();
    for (const layout::PressingAxis& round :
         lay_out_clamps(chest.problem(work::Shop{}), plan::Level::hold).rounds) {
      for (const plan::PlannedClamp& clamp : round.clamps) {
        CHECK(clamp.wedge[0].angle_deg == 0);
        CHECK(clamp.wedge[1].angle_deg == 0);
      }
    }
  }
}

}  // namespace planner::clamps::axis
