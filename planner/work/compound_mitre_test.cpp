#include "planner/work/compound_mitre.h"

#include <cmath>
#include <initializer_list>
#include <numbers>

#include <doctest/doctest.h>

namespace planner::work {

TEST_SUITE("planner/compound_mitre") {
  // Outside, closed form: 180 degrees over the number of sides
  TEST_CASE("upright sides are sawn with the blade alone") {
    for (const int sides : {3, 4, 6, 36}) {
      CHECK(compound_mitre(sides, 0).blade_deg == 180.0 / sides);
      CHECK(compound_mitre(sides, 0).gauge_deg == 0);
    }
  }

  // Outside, closed form: crown molding's angles, 30 degrees and arctan of 1 / sqrt 2
  TEST_CASE("four sides at 45 degrees are sawn as crown molding is: 30 and 35.26 degrees") {
    const CompoundMitre crown = compound_mitre(4, 45);
    CHECK(crown.blade_deg == doctest::Approx(30).epsilon(1e-12));
    CHECK(crown.gauge_deg == doctest::Approx(35.264389682754654).epsilon(1e-12));  // arctan of 1 / sqrt 2
  }

  // Outside, closed form: angle between two normals; a side's own corner
  TEST_CASE("twice the blade is the angle between two sides' faces; the gauge is a face's own corner's") {
    for (const int sides : {3, 5, 8, 12}) {
      for (const double slope : {-15.0, -4.0, 7.5, 16.0}) {
        const double s = slope * std::numbers::pi / 180, turn = 2 * std::numbers::pi / sides;
        // Outward normals cos s, 0, -sin s and the same turned about the upright axis.
        const double between = std::acos(std::cos(s) * std::cos(s) * std::cos(turn) + std::sin(s) * std::sin(s));
        CHECK(compound_mitre(sides, slope).blade_deg * 2 ==
              doctest::Approx(between * 180 / std::numbers::pi).epsilon(1e-9));
        // A side's half width grows by tan a tan s for each unit of height, 1 / cos s along the slant.
        const double corner = std::atan(std::tan(turn / 2) * std::tan(s) * std::cos(s));
        CHECK(compound_mitre(sides, slope).gauge_deg ==
              doctest::Approx(corner * 180 / std::numbers::pi).epsilon(1e-9));
      }
    }
  }
}

}  // namespace planner::work
