#include "planner/stage/most_helpful.h"

#include <doctest/doctest.h>

#include "planner/files/job_file.h"
#include "planner/files/shop_file.h"
#include "planner/make_plan.h"

using namespace planner;

namespace {

const char* const kChest =
    "units='in'\nspecies='black_walnut'\n[box]\noutside=[14, 9, 8]\nstock='3/4'\n"
    "corners='rabbet'\nbottom='rabbet'\ntop='rabbet'\n[glue]\nuse='pva_type2'\n";

plan::Plan planned(const std::string& shop) {
  const files::JobReading job = files::read_job("job.toml", kChest);
  const files::ShopReading read = files::read_shop("shop.toml", shop);
  REQUIRE(job.job);
  REQUIRE(read.shop);
  const Planned out = make_plan(*job.job, *read.shop, {});
  REQUIRE(out.plan);
  return *out.plan;
}

std::string shop_of(int people, const std::string& snug) {
  return "units='in'\npeople=" + std::to_string(people) +
         "\n[[clamp]]\nkind='f_heavy'\ncount=24\nopening=24\n[pace]\nsnug='" + snug + "'\n";
}

double least_slack(const plan::Plan& plan) {
  double least = 1e9;
  for (const plan::Stage& stage : plan.stages) {
    least = std::min(least, stage.slack_s);
  }
  return least;
}

}  // namespace

TEST_SUITE("planner/most_helpful") {
  TEST_CASE("of a plan in comfort nothing is told") {
    const plan::Plan plan = planned(shop_of(1, "10 s"));
    REQUIRE(plan.verdict.comfort == plan::Comfort::comfortable);
    CHECK_FALSE(plan.verdict.helps_most);
  }
  TEST_CASE("slow hands are told what gives most time, as it is when planned so") {
    const plan::Plan alone = planned(shop_of(1, "30 s"));
    REQUIRE(alone.verdict.comfort == plan::Comfort::tight);
    REQUIRE(alone.verdict.helps_most);
    const plan::HelpsMost& most = *alone.verdict.helps_most;
    CHECK(most.before_s == least_slack(alone));
    CHECK(most.slack_s >= most.before_s + 15);
    // A helper is one of the changes tried: none that gives less is told.
    CHECK(most.slack_s >= least_slack(planned(shop_of(2, "30 s"))));
  }
}
