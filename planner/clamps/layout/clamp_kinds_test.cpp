// What each kind of clamp is good for, in whole plans.
#include <algorithm>

#include <doctest/doctest.h>

#include "planner/clamps/layout/clamp_rack.h"
#include "planner/clamps/layout/clamp_work_test.h"
#include "planner/files/job_file.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

namespace planner::clamps::layout {
namespace {

plan::Plan planned_with(const std::string& job_text, const work::Shop& shop) {
  const files::JobReading reading = files::read_job("job.toml", job_text);
  REQUIRE(reading.job);
  Planned planned = make_plan(*reading.job, shop, {});
  REQUIRE(planned.plan);
  for (const std::string& violation : verify::verify_plan(*reading.job, shop, *planned.plan)) {
    FAIL_CHECK(violation);
  }
  return *planned.plan;
}

std::string blank(double thickness_mm, double width_mm = 100) {
  return "title = 'Blank'\nunits = 'mm'\n[lamination]\nlength = 300\nlayers = 2\nwidth = " +
         std::to_string(width_mm) + "\nthickness = " +
         std::to_string(thickness_mm) + "\nspecies = 'hard_maple'\n[glue]\nuse = 'pva_type2'\n";
}

// An edging on a strip 15 mm wide; the joint is 300 x 6 mm.
constexpr const char* kEdging =
    "title = 'Edging'\nunits = 'mm'\n"
    "[[part]]\nname = 'strip'\nspecies = 'black_cherry'\nlength = 300\nwidth = 15\nthickness = 6\n"
    "along = 'x'\nface = 'z'\nat = [0, 0, 0]\n"
    "[[part]]\nname = 'edging'\nspecies = 'black_cherry'\nlength = 300\nwidth = 6\nthickness = 4\n"
    "along = 'x'\nface = 'y'\nat = [0, -4, 0]\n"
    "[glue]\nuse = 'pva_type2'\n";

TEST_SUITE("planner/clamp_kinds") {
  // 100 mm jaws reach over the whole width of 30 mm thick layers: nothing to gain by cauls.
  TEST_CASE("of more than a dozen unlike rows all of a kind are planned on as one, no deeper than the shallowest") {
    std::vector<work::OwnedClamp> rows = {some("parallel", 3, 600)};
    for (int deeper = 0; deeper < 13; ++deeper) {
      rows.push_back(some("f_heavy", 2, 600));
      rows.back().throat = geometry::Length::whole_mm(100 + deeper);
    }
    const auto kinds = kinds_that_open(shop_with(rows), 500);
    const auto heavy = std::ranges::find(kinds, 2 * 13, &PlannedKind::count);
    REQUIRE(heavy != kinds.end());
    CHECK(heavy->kind == "f_heavy");
    CHECK(heavy->throat_mm == doctest::Approx(100));
    const auto other = std::ranges::find(kinds, 3, &PlannedKind::count);
    REQUIRE(other != kinds.end());
    CHECK(other->kind == "parallel");
    CHECK_FALSE(other->several);
  }
  TEST_CASE("hand screws press a thick blank with their own wooden jaws") {
    const plan::Plan plan = planned_with(blank(60, 80), shop_with({some("hand_screw", 8, 250)}));
    CHECK(plan.verdict.ok);
    REQUIRE(!plan.stages.front().clamps.empty());
    for (const plan::PlannedClamp& clamp : plan.stages.front().clamps) {
      CHECK(!clamp.caul);
      CHECK(clamp.pad.thick_mm == 0);
      CHECK(clamp.pad.along_mm == doctest::Approx(40));
      CHECK(clamp.pad.across_mm == doctest::Approx(80));
      CHECK(clamp.opening_mm == doctest::Approx(60 + 12.7));  // no pads, and half an inch
      CHECK(clamp.force_N / (40 * 80) == doctest::Approx(clamp.bearing_MPa));
    }
  }
  TEST_CASE("the same with metal jaws wants cauls") {
    const plan::Plan plan = planned_with(blank(60), shop_with({some("f_heavy", 8, 300)}));
    for (const plan::PlannedClamp& clamp : plan.stages.front().clamps) {
      CHECK(clamp.caul);
    }
  }

  // 300 x 6 mm at 0.172 MPa, with the model's margin of a tenth: 345 N at least, so three clamps of
  // 150 N at the very fewest. A spring gives the same in any hand.
  TEST_CASE("spring clamps hold a light line, where there are enough") {
    const plan::Plan held = planned_with(kEdging, shop_with({some("spring", 12, 75)}));
    CHECK(held.verdict.ok);
    const auto& clamps = held.stages.front().clamps;
    CHECK(clamps.size() >= 3);
    CHECK(clamps.size() <= 12);
    for (const plan::PlannedClamp& clamp : clamps) {
      CHECK(clamp.kind == "spring");
      CHECK(clamp.force_N <= 150);
    }
    const plan::Plan too_few = planned_with(kEdging, shop_with({some("spring", 1, 75)}));
    CHECK_FALSE(too_few.verdict.ok);
  }
  TEST_CASE("spring clamps are left on the rack where fewer screws do, and hold a blank lightly") {
    const plan::Plan both =
        planned_with(kEdging, shop_with({some("spring", 12, 75), some("f_light", 4, 150)}));
    CHECK(both.verdict.ok);
    for (const plan::PlannedClamp& clamp : both.stages.front().clamps) {
      CHECK(clamp.kind == "f_light");
    }
    const plan::Plan wide = planned_with(blank(20), shop_with({some("spring", 40, 75)}));
    CHECK(wide.verdict.ok);
    CHECK(wide.verdict.pressure == plan::Level::light);
  }
}

}  // namespace
}  // namespace planner::clamps::layout
