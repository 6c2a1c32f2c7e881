// The user's own clamps of fixtures/placed_on_chest against its worked.md.
#include <algorithm>

#include <doctest/doctest.h>

#include "fixture_plan.h"

using namespace planner;

namespace {

constexpr double kPsi_MPa = 0.00689475729;

const plan::PlacedTrial& trial() {
  const FixturePlan& f = fixture_plan("placed_on_chest", "enough.toml");
  REQUIRE(f.plan.placed);
  return *f.plan.placed;
}

double mean_psi(const std::string& a, const std::string& b) {
  const FixturePlan& f = fixture_plan("placed_on_chest", "enough.toml");
  for (const plan::LinePressure& line : trial().pressure) {
    const auto& parts = f.plan.joints[line.joint].parts;
    const work::PartId p = f.part(a), q = f.part(b);
    if (line.face == 0 && std::minmax(parts[0], parts[1]) == std::minmax(p, q)) {
      return line.mean_MPa / kPsi_MPa;
    }
  }
  FAIL("no pressure told of ", a, " and ", b);
  return 0;
}

}  // namespace

TEST_SUITE("plans/placed") {
  // Outside, closed form: a force over an area by hand (fixtures/placed_on_chest/worked.md)
  TEST_CASE("joints behind one another carry the same: 370 lbf on 5.4375 sq in is 68 psi") {
    CHECK(mean_psi("front", "left") == doctest::Approx(68.2).epsilon(0.005));
    CHECK(mean_psi("back", "left") == doctest::Approx(mean_psi("front", "left")));
    CHECK(mean_psi("left", "bottom") == doctest::Approx(163.5).epsilon(0.005));
    CHECK(mean_psi("left", "top") == doctest::Approx(mean_psi("left", "bottom")));
  }

  TEST_CASE("rims that no clamp stands over get nothing") {
    CHECK(mean_psi("front", "top") == doctest::Approx(0));
    CHECK_FALSE(trial().holds);
  }

  TEST_CASE("a heavy clamp's bare jaw presses more than three times what cherry bears") {
    REQUIRE(trial().clamps.size() == 4);
    const auto share = [](const plan::PlannedClamp& c) {
      return c.bearing_MPa / c.bearing_limit_MPa;
    };
    CHECK(share(trial().clamps[0]) == doctest::Approx(0.95).epsilon(0.01));
    CHECK(share(trial().clamps[2]) == doctest::Approx(3.18).epsilon(0.01));
  }

  TEST_CASE("each axis is offered a way that mends it") {
    for (const std::size_t axis : {1u, 2u}) {
      CHECK(std::any_of(trial().mends.begin(), trial().mends.end(),
                        [axis](const plan::PlacedMend& mend) {
                          return mend.axis[axis] > 0.9 && !mend.changes.empty();
                        }));
    }
  }
}
