#include "planner/stage/asked_stages.h"

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"

namespace planner::stage {
namespace {

const char* const kPanel =
    "units='mm'\nspecies='beech'\n[panel]\nlength=600\nthickness=20\nboards=[80, 80, 80, 80, 80]\n";

plan::Plan planned(const std::string& stages) {
  const files::JobReading read = files::read_job("job.toml", kPanel + stages);
  REQUIRE(read.job);
  const Planned out = make_plan(*read.job, files::unlimited_shop(), {});
  REQUIRE(out.plan);
  return *out.plan;
}

}  // namespace

TEST_SUITE("stage/asked stages") {
  TEST_CASE("stages asked for are planned in their order, what is left last") {
    const plan::Plan plan = planned(
        "[[stage]]\nname='left'\nparts=['board 2', 'board 1']\n"
        "[[stage]]\nname='right'\nparts=['board 4', 'board 5']\n");
    REQUIRE(plan.stages.size() == 3);
    CHECK(plan.stages[0].name == "left");
    CHECK(plan.stages[0].parts == std::vector<work::PartId>{0, 1});
    CHECK(plan.stages[1].name == "right");
    CHECK(plan.stages[1].parts == std::vector<work::PartId>{3, 4});
    CHECK(plan.stages[2].name.empty());
    CHECK(plan.stages[2].joints.size() == 2);
    CHECK(plan.verdict.ok);
    // Without being asked it is done in one go, which is told.
    REQUIRE(plan.verdict.other);
    CHECK(plan.verdict.other->stages == 1);
  }

  TEST_CASE("a stage may name an earlier one, and nothing need be left") {
    const plan::Plan plan = planned(
        "[[stage]]\nname='three'\nparts=['board 1', 'board 2', 'board 3']\n"
        "[[stage]]\nname='top'\nparts=['board 5', 'three', 'board 4']\n");
    REQUIRE(plan.stages.size() == 2);
    CHECK(plan.stages[1].name == "top");
    CHECK(plan.stages[1].parts == std::vector<work::PartId>{0, 1, 2, 3, 4});
    CHECK(plan.stages[1].joints.size() == 2);
  }
}

}  // namespace planner::stage
