#include "planner/clamps/axis/pressure_levels.h"

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"
#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/pressure/beam_table.h"

namespace planner::clamps::axis {
namespace {

constexpr double kLong_mm = 1200, kWide_mm = 90, kThick_mm = 22;

// Two cherry boards edge to edge, the first bowed away from the second in the middle or at the
// ends, clamped with what the shop has.
Planned two_boards(double bow_mm, const std::string& hollow, const work::Shop& shop) {
  const files::JobReading reading = files::read_job(
      "job.toml",
      "title = 'Shelf'\nunits = 'mm'\n[panel]\nlength = 1200\nthickness = 22\nboards = [90, 90]\n"
      "species = 'black_cherry'\n[[part]]\nname = 'board 1'\nbow = " +
          std::to_string(bow_mm) + "\nhollow = '" + hollow + "'\n[glue]\nuse = 'pva_type1'\n");
  REQUIRE(reading.job);
  Planned planned = make_plan(*reading.job, shop, {});
  REQUIRE(planned.plan);
  REQUIRE(planned.plan->pressure.size() == 1);
  return planned;
}

const plan::BowNote* bow_told(const plan::Plan& plan) {
  for (const plan::Note& note : plan.notes) {
    if (const auto* bow = std::get_if<plan::BowNote>(&note)) {
      return bow;
    }
  }
  return nullptr;
}

TEST_SUITE("planner/pressure_levels") {
  // Both boards bend, each as a beam on two supports under an even load, Wood Handbook equation 9-2
  // and Table 9-1. The clamps' load is in lumps and the last 0.1 mm isn't asked for: 25 %.
  // Outside, handbook: GTR-190 eq. 9-2 and Table 9-1: even load on two supports
  TEST_CASE("closing a bow takes what bends the two boards together") {
    const pressure::BeamLayer board =
        rectangle(kThick_mm, kWide_mm,
                  moduli_in(pressure::stiffness_of(*tables::find_wood("black_cherry")),
                            pressure::kBoardPressedOnEdge));
    const double each_mm_per_N =
        beam_deflection_mm(pressure::BeamCase::uniform_simple, board, kLong_mm, 1);
    for (const double bow : {1.0, 2.0, 3.0}) {
      CAPTURE(bow);
      const Planned planned = two_boards(bow, "+y", files::unlimited_shop());
      const plan::LinePressure& line = planned.plan->pressure[0];
      CHECK(line.bow_mm == doctest::Approx(bow));
      CHECK(line.closing_N == doctest::Approx(bow / (2 * each_mm_per_N)).epsilon(0.25));
      CHECK(line.open_gap_mm == doctest::Approx(0));
      REQUIRE(bow_told(*planned.plan) != nullptr);
      CHECK(bow_told(*planned.plan)->open_gap_mm == 0);
    }
  }

  TEST_CASE("a straight board wants no closing force, and nothing is said of a bow") {
    const Planned bowed = two_boards(1, "+z", files::unlimited_shop());  // hollow beside the joint
    CHECK(bowed.plan->pressure[0].bow_mm == 0);
    CHECK(bowed.plan->pressure[0].closing_N == 0);
    CHECK(bow_told(*bowed.plan) == nullptr);
  }

  TEST_CASE("where the rack can't close a bow the plan says how much stays open") {
    const work::Shop shop = layout::shop_with({layout::some("f_light", 3, 450)});
    const Planned planned = two_boards(25, "+y", shop);
    CHECK_FALSE(planned.plan->verdict.ok);
    CHECK(planned.plan->pressure[0].open_gap_mm > 0.1);
    REQUIRE(bow_told(*planned.plan) != nullptr);
    CHECK(bow_told(*planned.plan)->bow_mm == doctest::Approx(25));
    CHECK(bow_told(*planned.plan)->open_gap_mm > 0);
  }
}

}  // namespace
}  // namespace planner::clamps::axis
