#include "planner/from_stage.h"

#include <set>

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/make_plan.h"

namespace planner {
namespace {

// Eight strips of 1.8 m: two slabs, then one panel.
plan::Plan three_stages(const work::Shop& shop) {
  const files::JobReading read = files::read_job("job.toml",
                                                 "units = \"mm\"\n[panel]\nlength = 1800\nthickness = 40\n"
                                                 "boards = 8\nwidth = 480\nspecies = \"beech\"\n");
  REQUIRE(read.job);
  Planned planned = make_plan(*read.job, shop, {});
  REQUIRE(planned.plan);
  REQUIRE(planned.plan->stages.size() == 3);
  return std::move(*planned.plan);
}

}  // namespace

TEST_SUITE("planner/from stage") {
  TEST_CASE("what is done keeps its parts, and asks for nothing more") {
    const work::Shop shop;
    const plan::Plan whole = three_stages(shop);
    plan::Plan rest = whole;
    go_on_from(rest, 3, shop);
    CHECK(rest.stages_done == 2);
    std::set<work::JointId> left(whole.stages[2].joints.begin(), whole.stages[2].joints.end());
    for (const std::size_t s : {0U, 1U}) {
      CHECK(rest.stages[s].parts == whole.stages[s].parts);
      CHECK(rest.stages[s].steps.empty());
      CHECK(rest.stages[s].clamps.empty());
    }
    CHECK(rest.stages[2].steps.size() == whole.stages[2].steps.size());
    for (const plan::LinePressure& line : rest.pressure) {
      CHECK(left.contains(line.joint));
    }
    for (const work::FaceGlue& face : rest.glue.faces) {
      CHECK(left.contains(face.joint));
    }
    // One joint of seven is left, all alike.
    CHECK(left.size() == 1);
    CHECK(rest.glue.area_mm2 == doctest::Approx(whole.glue.area_mm2 / 7));
    CHECK(rest.verdict.ok);
    std::size_t on = 0;
    for (const plan::InventoryRow& row : rest.inventory) {
      on += static_cast<std::size_t>(row.used);
    }
    CHECK(on == whole.stages[2].clamps.size());
  }

  TEST_CASE("from the first stage on it is the whole plan") {
    const work::Shop shop;
    const plan::Plan whole = three_stages(shop);
    plan::Plan same = whole;
    go_on_from(same, 1, shop);
    CHECK(same.stages_done == 0);
    CHECK(same.glue.ready_ml == whole.glue.ready_ml);
    CHECK(same.pressure.size() == whole.pressure.size());
    CHECK(same.verdict.ok == whole.verdict.ok);
  }
}

}  // namespace planner
