#include "planner/stop.h"

#include <fstream>
#include <sstream>
#include <string>

#include <doctest/doctest.h>

#include "planner/job_file.h"
#include "planner/make_plan.h"
#include "planner/shop_file.h"
#include "planner/verify_plan.h"

using namespace planner;

namespace {

// Shelves and dividers: its orders are too many to look at them all.
constexpr const char* kGrid =
    "units = 'mm'\n[carcass]\noutside = [900, 300, 900]\nstock = 18\ntop = 'rabbet'\n"
    "bottom = 'dado'\nshelves = 3\ndividers = 2\nspecies = 'plywood_birch'\n[glue]\nuse = "
    "'pva_type1'\n";

Job grid() {
  const JobReading read = read_job("grid.toml", kGrid);
  REQUIRE(read.job);
  return *read.job;
}

// An end is asked for once it has been polled so many times.
Planned stopped_after(const Job& job, const Shop& shop, long polls, PlanOptions options = {}) {
  options.stop = [left = polls]() mutable { return left-- <= 0; };
  return make_plan(job, shop, options);
}

std::size_t clamps_of(const Plan& plan) {
  std::size_t clamps = 0;
  for (const Stage& stage : plan.stages) {
    clamps += stage.clamps.size();
  }
  return clamps;
}

}  // namespace

TEST_SUITE("stop") {
  TEST_CASE("nobody who can't ask has asked") {
    const Stop none, yes = [] { return true; };
    CHECK_FALSE(asked(nullptr));
    CHECK_FALSE(asked(&none));
    CHECK(asked(&yes));
  }

  TEST_CASE("stopped at any moment it leaves a plan that can be followed, and says that it was") {
    const Job job = grid();
    const Shop shop = unlimited_shop();
    for (const long polls : {0L, 1L, 10L, 100L, 1000L}) {
      CAPTURE(polls);
      const Planned planned = stopped_after(job, shop, polls);
      CHECK(planned.stopped);
      REQUIRE(planned.plan);
      CHECK(planned.plan->verdict.stopped);
      CHECK(planned.plan->verdict.ways_out.empty());
      CHECK(verify_plan(job, shop, *planned.plan).empty());
      CHECK(clamps_of(*planned.plan) > 0);
      for (const Stage& stage : planned.plan->stages) {
        CHECK(stage.status == Proof::bounded);
      }
    }
  }

  TEST_CASE("one that nobody stops is the plan that it was") {
    const Job job = grid();
    const Planned alone = make_plan(job, unlimited_shop(), {});
    PlanOptions watched;
    watched.stop = [] { return false; };
    const Planned planned = make_plan(job, unlimited_shop(), watched);
    REQUIRE((alone.plan && planned.plan));
    CHECK_FALSE(planned.stopped);
    CHECK_FALSE(planned.plan->verdict.stopped);
    CHECK(planned.plan->stages.front().slack_s == alone.plan->stages.front().slack_s);
    CHECK(planned.plan->stages.front().makespan_s == alone.plan->stages.front().makespan_s);
    CHECK(clamps_of(*planned.plan) == clamps_of(*alone.plan));
  }

  TEST_CASE("a glue that was not tried long enough isn't said to be out") {
    PlanOptions options;
    options.try_glues = true;
    CHECK(stopped_after(grid(), unlimited_shop(), 0, options).glue_trials.empty());
  }

  TEST_CASE("where no order was found yet there is no plan, and no mistake either") {
    // Oak beams of 120 kg each: one person lifts none of them, which takes long to be sure of.
    std::string heavy = "units = 'mm'\n[glue]\nuse = 'pva_type1'\n";
    for (int i = 0; i < 9; ++i) {
      heavy += "[[part]]\nname = 'beam " + std::to_string(i) +
               "'\nspecies = 'white_oak'\nlength = 6000\nwidth = 300\nthickness = 100\nalong = "
               "'x'\nface = 'z'\nat = [0, 0, " +
               std::to_string(100 * i) + "]\n";
    }
    const JobReading read = read_job("heavy.toml", heavy);
    REQUIRE(read.job);
    const Planned planned = stopped_after(*read.job, unlimited_shop(), 0);
    CHECK(planned.stopped);
    CHECK_FALSE(planned.plan);
    CHECK_FALSE(has_errors(planned.diagnostics));
  }
}
