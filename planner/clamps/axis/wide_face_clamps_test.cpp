#include "planner/clamps/axis/wide_face_clamps.h"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_work_test.h"
#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

namespace planner::clamps::axis {
namespace {

struct FacePlan {
  work::Job job;
  plan::Plan plan;
};

// Three layers of cherry, 19 mm each.
FacePlan laminated(double length_mm, double width_mm, const work::Shop& shop,
                   const std::string& placed = "") {
  const files::JobReading reading = files::read_job(
      "job.toml", "title = 'Blank'\nunits = 'mm'\n[lamination]\nlength = " +
                      std::to_string(length_mm) + "\nwidth = " + std::to_string(width_mm) +
                      "\nlayers = 3\nthickness = 57\nspecies = 'black_cherry'\n[glue]\nuse = "
                      "'pva_type1'\n" +
                      placed);
  REQUIRE(reading.job);
  Planned planned = make_plan(*reading.job, shop, {});
  REQUIRE(planned.plan);
  for (const std::string& violation : verify::verify_plan(*reading.job, shop, *planned.plan)) {
    FAIL_CHECK(violation);
  }
  return {*reading.job, *planned.plan};
}

double clamped_N(const plan::Plan& plan) {
  double sum = 0;
  for (const plan::Stage& stage : plan.stages) {
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      sum += clamp.force_N;
    }
  }
  return sum;
}

// Heavy F clamps, `count` of them: too few for full pressure.
work::Shop few(int count) {
  return layout::shop_with({layout::some("f_heavy", count, 450)});
}

TEST_SUITE("planner/wide_face_clamps") {
  // Pressure goes with force where nothing has to be closed.
  TEST_CASE("clamps on a blank are drawn no harder than it takes in weak hands, to the next 50 N") {
    const FacePlan f = laminated(600, 120, files::unlimited_shop());
    REQUIRE(!f.plan.stages.front().clamps.empty());
    const double force_N = f.plan.stages.front().clamps.front().force_N;
    REQUIRE(!f.plan.pressure.empty());
    double least = 1e300;
    for (const plan::LinePressure& line : f.plan.pressure) {
      least = std::min(least, kWeakHand * sure_MPa(line.min_MPa, line.mean_MPa) / line.hold_MPa);
    }
    CHECK(least >= 0.999);
    CHECK(least * (force_N - 50) / force_N < 1);
  }

  // Force alone asks for 72 000 mm2 x 0.172 MPa / 0.6 (weak hands) = 20.6 kN: five clamps of 4.5
  // kN.
  TEST_CASE("a blank of 600 x 120 is held by a dozen clamps, on cauls over all of it") {
    const FacePlan f = laminated(600, 120, few(12));
    CHECK(f.plan.verdict.ok);
    const plan::Stage& stage = f.plan.stages.front();
    CHECK(stage.clamps.size() <= 12);
    CHECK(stage.clamps.size() >= 5);
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      REQUIRE(clamp.caul);
      CHECK(clamp.caul->along_mm == doctest::Approx(600));
      CHECK(clamp.caul->across_mm == doctest::Approx(60));
    }
  }

  TEST_CASE("a wide face is judged as a plate, and carries all that its clamps give") {
    const FacePlan f = laminated(600, 120, files::unlimited_shop());
    REQUIRE(f.plan.pressure.size() == 2);
    for (const plan::LinePressure& line : f.plan.pressure) {
      CHECK_FALSE(line.estimated);
      CHECK(line.mean_MPa * 600 * 120 == doctest::Approx(clamped_N(f.plan)).epsilon(1e-6));
      CHECK(line.min_MPa <= line.mean_MPa);
      CHECK(std::abs(line.off_mm[0]) < 1);
      CHECK(std::abs(line.off_mm[1]) < 1);
    }
  }

  // Outside, handbook: GTR-190 Table 9-1: even load on two supports; Table 5-3a: black cherry
  TEST_CASE("cauls across a broad blank are cut to a camber by Table 9-1, and save clamps") {
    const files::JobReading reading = files::read_job(
        "job.toml",
        "title = 'Broad'\nunits = 'mm'\n[lamination]\nlength = 400\nwidth = 240\nlayers = "
        "2\nthickness = 20\nspecies = 'black_cherry'\n[glue]\nuse = 'pva_type2'\n");
    REQUIRE(reading.job);
    const Planned planned = make_plan(*reading.job, files::unlimited_shop(), {});
    REQUIRE(planned.plan);
    const auto& clamps = planned.plan->stages.front().clamps;
    REQUIRE(clamps.size() == 18);
    for (const plan::PlannedClamp& clamp : clamps) {
      REQUIRE(clamp.caul);
      CHECK(clamp.caul->along_mm == doctest::Approx(240));
      CHECK(clamp.caul_lining_mm == 3);
      // GTR-190 Table 9-1: a quarter more than what holds, 0.172 MPa, on a ninth of the face;
      // cherry, 1.1 x 10 300 MPa; shear adds some.
      const double load = 1.25 * 0.1724 * 400 * 240 / 9, span = 240 - 32;
      const double inertia = clamp.caul->across_mm * std::pow(clamp.caul->thick_mm, 3) / 12;
      const double bent = 5.0 / 384 * load * std::pow(span, 3) / (1.1 * 10300 * inertia);
      CHECK(clamp.caul_camber_mm > bent);
      CHECK(clamp.caul_camber_mm < 1.6 * bent);  // 240 mm is a short beam: much of it is shear
    }
  }

  TEST_CASE("a blank too narrow to be a wide face keeps its straight line") {
    const FacePlan f = laminated(600, 40, files::unlimited_shop());
    for (const plan::PlannedClamp& clamp : f.plan.stages.front().clamps) {
      CHECK((!clamp.caul || clamp.caul->across_mm <= 40));
    }
    CHECK_FALSE(f.plan.pressure.front().estimated);
  }

  // As the reference's face with clamps in the middle alone (F_centre): most of it is starved.
  TEST_CASE("clamps along the middle of a wide blank, without cauls, starve its edges") {
    std::string placed;
    for (const int x : {75, 225, 375, 525}) {
      placed += "[[my_clamp]]\naxis = 'z'\nat = [" + std::to_string(x) +
                ", 90, 0]\nforce = '3000 N'\npad = [40, 40]\n";
    }
    const FacePlan f = laminated(600, 180, files::unlimited_shop(), placed);
    REQUIRE(f.plan.placed);
    CHECK_FALSE(f.plan.placed->holds);
    for (const plan::LinePressure& line : f.plan.placed->pressure) {
      CHECK(line.min_MPa == 0);
      CHECK(line.mean_MPa * 600 * 180 == doctest::Approx(12000).epsilon(1e-6));
    }
  }
}

}  // namespace
}  // namespace planner::clamps::axis
