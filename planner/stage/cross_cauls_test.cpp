#include "planner/stage/cross_cauls.h"

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"
#include "planner/verify/verify_plan.h"

using namespace planner;

namespace {

std::string panel(const std::string& sizes) {
  return "units='mm'\n[panel]\n" + sizes +
         "species='black_cherry'\n[glue]\nuse='pva_type1'\n";
}

// Of a rack with bars, and so many light clamps beside them.
plan::Plan planned_job(const std::string& text, int light, int bars) {
  const files::JobReading job = files::read_job("job.toml", text);
  const files::ShopReading shop = files::read_shop(
      "shop.toml", "units='mm'\n[[clamp]]\nkind='pipe_3_4'\nopening=900\ncount=" +
                       std::to_string(bars) +
                       "\n[[clamp]]\nkind='f_light'\nopening=150\ncount=" +
                       std::to_string(light) + "\n");
  REQUIRE(job.job);
  REQUIRE(shop.shop);
  const Planned out = make_plan(*job.job, *shop.shop, {});
  REQUIRE(out.plan);
  CHECK(verify::verify_plan(*job.job, *shop.shop, *out.plan).empty());
  return *out.plan;
}

plan::Plan planned(const std::string& sizes, int light, int bars = 8) {
  return planned_job(panel(sizes), light, bars);
}

const char* const kShelf = "length=1000\nthickness=20\nboards=6\nwidth=480\n";

}  // namespace

TEST_SUITE("planner/cross_cauls") {
  TEST_CASE("a wide thin panel gets a pair at each end, clear of the bars, set once they are snug") {
    const plan::Plan plan = planned(kShelf, 6);
    REQUIRE(plan.stages.size() == 1);
    const plan::Stage& stage = plan.stages[0];
    REQUIRE(stage.cross_cauls);
    REQUIRE(stage.cross_cauls->at_mm.size() == 2);
    CHECK(stage.cross_cauls->at_mm[0] < 100);
    CHECK(stage.cross_cauls->at_mm[1] > 900);
    CHECK(stage.cross_cauls->kind == "f_light");
    CHECK(stage.cross_cauls->opening_mm == doctest::Approx(20 + 2 * 38.1));
    double snug = -1, cauls = -1, flush = -1, tight = -1;
    for (const plan::Step& step : stage.steps) {
      double& start = step.kind == plan::StepKind::snug      ? snug
                      : step.kind == plan::StepKind::cauls   ? cauls
                      : step.check == plan::Check::flush     ? flush
                      : step.kind == plan::StepKind::tighten ? tight
                                                             : snug;
      start = step.kind == plan::StepKind::spread || step.kind == plan::StepKind::join ? start
                                                                                      : step.start_s;
    }
    CHECK(snug < cauls);
    CHECK(cauls < flush);
    CHECK(flush < tight);
    for (const plan::PlannedClamp& clamp : stage.clamps) {
      for (const double at : stage.cross_cauls->at_mm) {
        CHECK(std::abs(clamp.at.x - at) >= 60);
      }
    }
    const auto row = std::ranges::find(plan.inventory, "f_light", &plan::InventoryRow::kind);
    REQUIRE(row != plan.inventory.end());
    CHECK(row->used == 4);
  }
  TEST_CASE("what the rack has left sets how many: one pair, or none") {
    for (const int left : {2, 3}) {
      REQUIRE(planned(kShelf, left).stages[0].cross_cauls);
      CHECK(planned(kShelf, left).stages[0].cross_cauls->at_mm.size() == 1);
    }
    CHECK_FALSE(planned(kShelf, 1, 4).stages[0].cross_cauls.has_value());
  }
  TEST_CASE("thick, narrow and two-board panels need none") {
    CHECK_FALSE(
        planned("length=1000\nthickness=32\nboards=6\nwidth=480\n", 6).stages[0].cross_cauls);
    CHECK_FALSE(
        planned("length=1000\nthickness=20\nboards=3\nwidth=300\n", 6).stages[0].cross_cauls);
    CHECK_FALSE(
        planned("length=1000\nthickness=20\nboards=2\nwidth=400\n", 6).stages[0].cross_cauls);
  }
  TEST_CASE("three wide thin boards want them, however the panel is drawn") {
    CHECK(planned("length=1000\nthickness=20\nboards=3\nwidth=480\n", 6).stages[0].cross_cauls);
    std::string standing = "units='mm'\nspecies='black_cherry'\n[glue]\nuse='pva_type1'\n";
    for (const int up : {0, 160, 320}) {
      standing += "[[part]]\nname='board at " + std::to_string(up) +
                  "'\nlength=1000\nwidth=160\nthickness=20\nalong='x'\nface='y'\nat=[0, 0, " + std::to_string(up) +
                  "]\n";
    }
    const plan::Plan plan = planned_job(standing, 6, 8);
    REQUIRE(plan.stages[0].cross_cauls);
    CHECK(plan.stages[0].cross_cauls->at_mm.size() == 2);
  }
  TEST_CASE("a long one gets one more for each four feet") {
    CHECK(planned("length=2400\nthickness=20\nboards=4\nwidth=480\n", 8)
              .stages[0]
              .cross_cauls->at_mm.size() == 3);
  }
}
